//! What may be written after `levamen feed`.

use std::path::PathBuf;

use clap::{Args, ValueHint};

/// A plan of feedings, or a new culture.
#[derive(Debug, Args)]
pub struct FeedArguments {
    /// The first day, such as 2026-12-01
    #[arg(long, value_name = "DATE", required_unless_present = "new")]
    pub from: Option<String>,
    /// For how many days
    #[arg(long, value_name = "N", default_value = "7", allow_negative_numbers = true)]
    pub days: String,
    /// The ripe culture that is needed, as CSV: date,culture,grams, and time if you like; `-` reads standard input
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath, required_unless_present = "new")]
    pub need: Option<PathBuf>,
    /// Only this culture; it stands also for rows that name none
    #[arg(long, value_name = "NAME")]
    pub culture: Option<String>,
    /// Ripe culture at the start, such as 400g; without it, the plan says what to begin with
    #[arg(long, value_name = "MASS")]
    pub on_hand: Option<String>,
    /// When culture is needed where a row says no time
    #[arg(long, value_name = "TIME", default_value = "04:00")]
    pub at: String,
    /// When somebody can feed, such as 06:00,18:00; without it, at hours that suit the needs
    #[arg(long, value_name = "TIMES", value_delimiter = ',')]
    pub feed_at: Vec<String>,
    /// How warm the culture is kept, such as 20°C, where that is not as the book says
    #[arg(long, value_name = "TEMPERATURE")]
    pub kept_at: Option<String>,
    /// The time zone, such as Europe/Lisbon; without it, that of the book or of this machine
    #[arg(long, value_name = "ZONE")]
    pub zone: Option<String>,
    /// How to start this culture anew, day by day
    #[arg(long, value_name = "NAME", conflicts_with_all = ["from", "need", "culture", "on_hand", "feed_at", "kept_at"])]
    pub new: Option<String>,
}
