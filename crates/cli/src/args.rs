//! What a baker may write after `levamen`. The one definition from which help, completions and manual come.

mod convert;
mod day;
mod feed;
mod ferment;
mod spaced;
mod store;

use std::path::PathBuf;

use clap::error::{ContextKind, ContextValue};
use clap::{Args, Parser, Subcommand, ValueEnum, ValueHint};
pub use convert::ConvertArguments;
pub use day::{DayArguments, DayForm, DayPartOption, OrderArguments};
pub use feed::FeedArguments;
pub use ferment::{RipenArguments, TubArguments, WaterArguments};
use levamen::visible;
use levamen::{Extreme, WishNames, Wishes};
use levamen_files::Target;
pub use spaced::joined;
pub use store::{CostArguments, StoreArguments};

/// A bakery's formula book: doughs in baker's percentages, every pre-ferment's flour and water counted once.
#[derive(Debug, Parser)]
#[command(name = "levamen", version, max_term_width = 90, arg_required_else_help = true)]
pub struct Arguments {
    /// The folder that is the book: every *.dough file in it
    #[arg(long, global = true, value_name = "DIR", default_value = ".", value_hint = ValueHint::DirPath)]
    pub book: PathBuf,

    /// Print JSON instead of text
    #[arg(long, global = true)]
    pub json: bool,

    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// Ends the command with what is wrong with its arguments. They are shown as they can be seen: one with a line end or
/// an escape of its own could forge or hide what is said of it.
pub fn refuse(error: clap::Error) -> ! {
    let shown = std::env::args_os().map(|argument| visible(&argument.to_string_lossy()).into_owned());
    let error = Arguments::try_parse_from(joined(shown.map(Into::into))).err().unwrap_or(error);
    with_tip(error).exit()
}

/// Says where the options of a size belong, where one was given to a command that takes none.
fn with_tip(mut error: clap::Error) -> clap::Error {
    let sizes = [
        "--pieces",
        "--piece",
        "--dough",
        "--to-divide",
        "--flour",
        "--have",
        "--with-old-dough",
        "--losing",
    ];
    let is_size = match error.get(ContextKind::InvalidArg) {
        Some(ContextValue::String(option)) => sizes.contains(&option.as_str()),
        _ => false,
    };
    if is_size && error.kind() == clap::error::ErrorKind::UnknownArgument {
        let tip = "`levamen scale` shows a dough at another size: it takes this option";
        error.remove(ContextKind::SuggestedArg);
        error.insert(ContextKind::Suggested, ContextValue::StyledStrs(vec![tip.into()]));
    }
    error
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// List the doughs of the book
    List,
    /// Look for every problem of the book
    Check,
    /// Show a dough: overall formula, stages, hydration, salt, pre-fermented flour
    Formula(Named),
    /// Show a dough at another size; without one, at the size that its file says
    #[command(arg_required_else_help = true)]
    Scale {
        /// The dough.
        #[command(flatten)]
        dough: Named,
        /// The size.
        #[command(flatten)]
        size: SizeArguments,
    },
    /// Tell why a figure of a dough is what it is, down to the lines of its file
    Why {
        /// The dough's name; `-` reads one dough from standard input
        #[arg(value_name = "NAME")]
        name: String,
        /// The figure, such as hydration, rye flour, water in poolish, seed of levain
        #[arg(value_name = "FIGURE", required = true, num_args = 1..)]
        figure: Vec<String>,
        /// What the dough should be instead of what its file says.
        #[command(flatten)]
        wishes: WishArguments,
    },
    /// Show two doughs side by side, from the same flour; or one before and after a wish
    #[command(arg_required_else_help = true)]
    Compare(CompareArguments),
    /// Turn a dough's pre-ferment into another: the whole stays as it is, but for its yeast
    #[command(arg_required_else_help = true)]
    Convert(ConvertArguments),
    /// Print the bench sheet: what to weigh, rounded to the scales, adding up to the gram
    Sheet(SheetArguments),
    /// Tell when a pre-ferment is ripe, how warm to keep it, or how much seed or yeast it takes
    Ripen(RipenArguments),
    /// Tell how warm the water has to be for a dough's temperature, and how much of it is ice
    #[command(arg_required_else_help = true)]
    Water(WaterArguments),
    /// Pick tubs for the pre-ferments of a dough, with room to rise
    #[command(arg_required_else_help = true)]
    Tub(TubArguments),
    /// Turn a day's orders into everything that is set, mixed, weighed and baked for it, and when
    #[command(arg_required_else_help = true)]
    Day(DayArguments),
    /// Plan the feedings of a culture, so that enough is ripe each day and the least is thrown away
    #[command(arg_required_else_help = true)]
    Feed(FeedArguments),
    /// List what the store room needs over some dates, and what to order by when
    #[command(arg_required_else_help = true)]
    Store(StoreArguments),
    /// Tell what doughs, pieces and orders cost
    Cost(CostArguments),
    /// Lay out dough files in their canonical form
    Tidy {
        /// The files; without any, all of the book. `-` reads standard input
        #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
        files: Vec<PathBuf>,
        /// Change nothing; exit 1 where a file would change
        #[arg(long)]
        check: bool,
    },
    /// Turn a recipe in weights (CSV: stage,ingredient,grams) into a dough file
    Import {
        /// The CSV file; `-` reads standard input
        #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
        file: PathBuf,
        /// The unit of the weights
        #[arg(long, value_name = "UNIT", default_value = "g")]
        unit: WeightUnit,
        /// The dough's name; without it, the name of the file
        #[arg(long, value_name = "NAME")]
        name: Option<String>,
    },
    /// Print completions for a shell
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    Man,
}

/// A dough by its name.
#[derive(Debug, Args)]
pub struct Named {
    /// The dough's name; `-` reads one dough from standard input
    #[arg(value_name = "NAME")]
    pub name: String,
    /// What it should be instead of what its file says.
    #[command(flatten)]
    pub wishes: WishArguments,
}

/// Two doughs, or one dough and a wish.
#[derive(Debug, Args)]
pub struct CompareArguments {
    /// The first dough's name; `-` reads one dough from standard input
    #[arg(value_name = "A")]
    pub first: String,
    /// The second dough's name, or `-`; without it, the first dough with what is wished for
    #[arg(value_name = "B")]
    pub second: Option<String>,
    /// Each dough at the size of its own file
    #[arg(long)]
    pub as_written: bool,
    /// What the second dough should be instead of what its file says.
    #[command(flatten)]
    pub wishes: WishArguments,
}

/// Figures that a dough should have, instead of what its file says.
#[derive(Debug, Default, Args)]
pub struct WishArguments {
    /// A figure that the dough must have, such as "hydration 78 %", "water in final dough 500 g" or
    /// "levain at most 4.2 kg"; may be given again
    #[arg(long, value_name = "FIGURE AMOUNT")]
    pub want: Vec<String>,
    /// A figure that need not be what the file says, such as "flour of levain"; may be given again
    #[arg(long, value_name = "FIGURE")]
    pub free: Vec<String>,
    /// Make as much of a figure as the wants allow, such as "pieces" or "dough"
    #[arg(long, value_name = "FIGURE", conflicts_with = "least")]
    pub most: Option<String>,
    /// Make as little of a figure as the wants allow
    #[arg(long, value_name = "FIGURE")]
    pub least: Option<String>,
}

impl WishArguments {
    /// What is wished for.
    pub fn read(&self) -> Wishes {
        let most = self.most.iter().map(|figure| Extreme { figure: figure.clone(), most: true });
        let least = self.least.iter().map(|figure| Extreme { figure: figure.clone(), most: false });
        Wishes {
            want: self.want.clone(),
            free: self.free.clone(),
            extreme: most.chain(least).next(),
            called: WishNames { want: "--want", most: "--most", least: "--least" },
        }
    }

    /// Whether nothing is wished for.
    pub fn are_none(&self) -> bool {
        self.read().are_none()
    }
}

/// The bench sheet's arguments.
#[derive(Debug, Args)]
pub struct SheetArguments {
    /// The dough.
    #[command(flatten)]
    pub dough: Named,
    /// The size, where it is not that of the file.
    #[command(flatten)]
    pub size: SizeArguments,
    /// The form of the sheet
    #[arg(long = "as", value_name = "FORM")]
    pub form: Option<SheetForm>,
    /// Where it goes.
    #[command(flatten)]
    pub output: OutputFile,
}

/// Where a result goes, if not to the terminal.
#[derive(Debug, Default, Args)]
pub struct OutputFile {
    /// Write it to a file, whole or not at all
    #[arg(short, long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub output: Option<PathBuf>,
    /// Let the file take the place of one that is there
    #[arg(long, requires = "output")]
    pub replace: bool,
}

impl OutputFile {
    /// The file to write, if any.
    pub fn target(&self) -> Option<Target<'_>> {
        self.output.as_deref().map(|path| Target::new(path, self.replace))
    }
}

/// How much to make.
#[derive(Debug, Default, Args)]
pub struct SizeArguments {
    /// So many pieces
    #[arg(
        long,
        value_name = "N",
        conflicts_with_all = ["dough", "to_divide", "flour", "have"],
        allow_negative_numbers = true
    )]
    pub pieces: Option<String>,
    /// What one piece weighs before baking, such as 920g; without it, what the file says
    #[arg(long, value_name = "MASS", requires = "pieces")]
    pub piece: Option<String>,
    /// So much dough as it is mixed, such as 22kg
    #[arg(long, value_name = "MASS", conflicts_with_all = ["to_divide", "flour", "have"])]
    pub dough: Option<String>,
    /// So much to divide, once what is lost in mixing and dividing is gone, such as 21.5kg
    #[arg(long, value_name = "MASS", conflicts_with_all = ["flour", "have"])]
    pub to_divide: Option<String>,
    /// Dough from so much flour, such as 10kg
    #[arg(long, value_name = "MASS", conflicts_with = "have")]
    pub flour: Option<String>,
    /// As much dough as a stage that is ready gives, such as levain=4.2kg
    #[arg(long, value_name = "STAGE=MASS")]
    pub have: Option<String>,
    /// Beside the pieces, or what is to divide, what a dough that takes a piece of its last batch has to keep for the
    /// next
    #[arg(long, conflicts_with_all = ["dough", "flour", "have"])]
    pub with_old_dough: bool,
    /// The share of the dough lost in mixing and dividing, such as 2%; without it, what the file says
    #[arg(long, value_name = "SHARE", conflicts_with_all = ["flour", "have"])]
    pub losing: Option<String>,
}

/// The forms of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetForm {
    /// To read and to print
    Text,
    /// Comma-separated values (RFC 4180)
    Csv,
    /// JSON
    Json,
}

/// The units that a recipe may be in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum WeightUnit {
    /// Grams
    G,
    /// Kilograms
    Kg,
    /// Pounds
    Lb,
    /// Ounces
    Oz,
}
