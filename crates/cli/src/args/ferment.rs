//! What a baker may ask about temperature and time.

use clap::Args;

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
    #[arg(long, value_name = "TEMPERATURE", group = "warmth")]
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
    /// How warm the room is by the clock, such as "18:00 24°C, 22:00 20°C, 04:00 17°C"
    #[arg(long, value_name = "TIMES AND TEMPERATURES", group = "warmth")]
    pub room: Option<String>,
    /// When it is set, such as 18:00
    #[arg(long, value_name = "CLOCK", requires = "warmth")]
    pub set: Option<String>,
    /// When it shall be ripe, such as 04:30
    #[arg(long, value_name = "CLOCK", requires = "warmth")]
    pub ready: Option<String>,
}
