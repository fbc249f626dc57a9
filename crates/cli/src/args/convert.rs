//! What may be written after `levamen convert`.

use clap::Args;

use crate::args::OutputFile;

/// A dough and what its pre-ferment is to become.
#[derive(Debug, Args)]
pub struct ConvertArguments {
    /// The dough's name; `-` reads one dough from standard input
    #[arg(value_name = "NAME")]
    pub dough: String,
    /// straight, poolish, biga, sponge, "liquid levain", "stiff levain", "old dough" or "rye sour"
    #[arg(long, value_name = "KIND")]
    pub to: String,
    /// The pre-ferment that is replaced, where the dough has several
    #[arg(long, value_name = "NAME")]
    pub stage: Option<String>,
    /// The share of all flour that is pre-fermented, such as 30%; else as it was, or what is usual
    #[arg(long, value_name = "SHARE")]
    pub share: Option<String>,
    /// Water on the pre-ferment's flour, such as 100%
    #[arg(long, value_name = "SHARE")]
    pub hydration: Option<String>,
    /// Seed on the flour weighed with it, such as 20%
    #[arg(long, value_name = "SHARE")]
    pub seed: Option<String>,
    /// Keep as much ripe levain as went in as seed before mixing; else the seed stays in the dough
    #[arg(long)]
    pub given_back: bool,
    /// The culture that the seed comes from
    #[arg(long, value_name = "NAME")]
    pub culture: Option<String>,
    /// A flour of the pre-ferment; may be given again. Else the dough's flours in their proportions
    #[arg(long, value_name = "NAME")]
    pub flour: Vec<String>,
    /// Which yeast, or how much on the pre-ferment's flour, or both: "fresh yeast 0.2%"
    #[arg(long, value_name = "YEAST")]
    pub yeast: Option<String>,
    /// How long the pre-ferment ripens, such as 14h or 90min
    #[arg(long, value_name = "TIME")]
    pub hours: Option<String>,
    /// How warm the pre-ferment ripens, such as 21°C or 70°F
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    pub at: Option<String>,
    /// The new dough's name; else the old one's with the kind
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// Where it goes.
    #[command(flatten)]
    pub output: OutputFile,
}
