//! What a baker may ask about temperature and time.

use std::path::PathBuf;

use clap::{Args, ValueHint};

/// Which stage, and what is given; what is not given is found.
#[derive(Debug, Args)]
pub struct RipenArguments {
    /// The dough's name; `-` reads one dough from standard input
    #[arg(value_name = "NAME")]
    pub name: String,
    /// The stage; without it, the only one that ripens
    #[arg(value_name = "STAGE")]
    pub stage: Option<String>,
    /// How warm it is kept, such as 18°C
    #[arg(long, value_name = "TEMPERATURE", group = "warmth", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// In how long it shall be ripe, such as 14h or 90min
    #[arg(long = "in", value_name = "TIME", conflicts_with_all = ["room", "set", "ready"])]
    pub time: Option<String>,
    /// Seed on the stage's own flour, such as 10%
    #[arg(long, value_name = "SHARE", conflicts_with = "yeast")]
    pub seed: Option<String>,
    /// Yeast on the stage's own flour, such as 0.1%
    #[arg(long, value_name = "SHARE")]
    pub yeast: Option<String>,
    /// How warm the room is by the clock, such as "18:00 24°C, 22:00 20°C, 04:00 17°C", or the name of a room of the book
    #[arg(long, value_name = "TIMES AND TEMPERATURES", group = "warmth")]
    pub room: Option<String>,
    /// When it is set, such as 18:00
    #[arg(long, value_name = "CLOCK", requires = "warmth")]
    pub set: Option<String>,
    /// When it shall be ripe, such as 04:30
    #[arg(long, value_name = "CLOCK", requires = "warmth")]
    pub ready: Option<String>,
    /// Draw what grows: into a file, such as levain.svg, or `-` into the terminal
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub plot: Option<PathBuf>,
    /// Let the plot take the place of a file that is there
    #[arg(long, requires = "plot")]
    pub replace: bool,
}

/// How warm the dough shall be, and how warm all else is.
#[derive(Debug, Args)]
pub struct WaterArguments {
    /// The dough's name; `-` reads one dough from standard input
    #[arg(value_name = "NAME")]
    pub name: String,
    /// How warm the dough shall be, such as 24°C or 75°F; without it, as its method says
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub dough_at: Option<String>,
    /// How warm the flour is; without it, as warm as the flour store of the bakery's card
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub flour: Option<String>,
    /// How warm the room is, or the name of a room of the book; without it, the first of the book
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub room: Option<String>,
    /// When it is mixed, such as 02:00, for a room that is warmer or colder by the hour
    #[arg(long, value_name = "CLOCK")]
    pub time: Option<String>,
    /// How warm the pre-ferment is
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub preferment: Option<String>,
    /// The friction by the trade's rule: a difference, such as 8°C or 14°F; without it, as the card of the dough's mixer
    /// says
    #[arg(long, value_name = "DIFFERENCE", allow_hyphen_values = true)]
    pub friction: Option<String>,
    /// Instead of a friction: measured batches to learn it from (CSV:
    /// mixer,dough,measured,flour,room,preferment,water)
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath, conflicts_with = "friction", requires = "mixer")]
    pub noted: Option<PathBuf>,
    /// The mixer whose noted batches count
    #[arg(long, value_name = "MIXER", requires = "noted")]
    pub mixer: Option<String>,
    /// How warm the tap's water is, without it as the bakery's card says; where that is too warm, the ice is worked out
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub tap: Option<String>,
    /// So much dough as it is mixed, such as 22kg, where it is not what the file says
    #[arg(long, value_name = "MASS")]
    pub dough: Option<String>,
}

/// Which tubs there are.
#[derive(Debug, Args)]
pub struct TubArguments {
    /// The dough's name; `-` reads one dough from standard input
    #[arg(value_name = "NAME")]
    pub name: String,
    /// What the tubs hold to the brim, such as 5l,10l,20l; without it, those of the book
    #[arg(long, value_name = "VOLUMES")]
    pub tubs: Option<String>,
    /// So much dough as it is mixed, such as 22kg, where it is not what the file says
    #[arg(long, value_name = "MASS")]
    pub dough: Option<String>,
}
