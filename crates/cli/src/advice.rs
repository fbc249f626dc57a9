//! What is wrong with a question, in the words of a command line: which option to write, and how.

use levamen::{Field, QuestionError};
use levamen_files::FileError;

/// What is wrong. Where it is about the words of an option, they are quoted as they were written.
pub fn message(error: &QuestionError) -> String {
    match error {
        QuestionError::Figure { field, words, message, .. } => match option(*field) {
            Some(option) => format!("`{option} {words}`: {message}"),
            None => message.clone(),
        },
        QuestionError::NothingToRelease { words, .. } => format!("`--free {words}`: {error}"),
        QuestionError::LossWithoutSize => {
            "`--losing` says what is lost of `--pieces`, `--dough` or `--to-divide`".to_owned()
        }
        QuestionError::WhichCulture => {
            "`--on-hand` can be of one culture only, and several are needed".to_owned()
        }
        error => error.to_string(),
    }
}

/// The option that a figure was written with; the figure that is explained has none.
fn option(field: Field) -> Option<&'static str> {
    match field {
        Field::Figure => None,
        Field::Free => Some("--free"),
        Field::Most => Some("--most"),
        Field::Least => Some("--least"),
    }
}

/// How to mend a question.
pub fn help(error: &QuestionError) -> Vec<String> {
    use QuestionError as E;
    match error {
        E::UnknownDough { near, is_empty, .. } => vec![unknown_dough(near.as_deref(), *is_empty)],
        E::UnknownCulture { advice, .. } => vec![advice.clone()],
        E::UnknownStage { near: Some(near), .. } => vec![format!("did you mean `{near}`?")],
        E::UnknownStage { stages, .. } if stages.is_empty() => {
            vec!["it has no stage but the final dough: use --dough or --flour".to_owned()]
        }
        E::UnknownStage { stages, .. } => vec![format!("its stages are {}", stages.join(", "))],
        E::UnknownRipening { stages, .. } if stages.is_empty() => Vec::new(),
        E::UnknownRipening { stages, .. } => vec![format!("those that ripen are {}", stages.join(", "))],
        E::WhichStage { stages, .. } => vec![format!("name one of them: {}", stages.join(", "))],
        E::Figure { help, .. } => help.clone(),
        E::NoOldDough { .. } => {
            vec!["leave `--with-old-dough` out: nothing of it is kept for the next".to_owned()]
        }
        E::LossWithoutSize | E::TooManyPieces { .. } | E::NotTaken { .. } | E::NothingForTubs { .. } => {
            Vec::new()
        }
        error => fixed(error).iter().map(|line| (*line).to_owned()).collect(),
    }
}

fn unknown_dough(near: Option<&str>, is_empty: bool) -> String {
    match near {
        Some(near) => format!("did you mean `{near}`?"),
        None if is_empty => {
            "the book is empty: `--book DIR` names another folder with *.dough files".to_owned()
        }
        None => "`levamen list` shows what there is".to_owned(),
    }
}

/// Advice that is the same whatever the question was.
fn fixed(error: &QuestionError) -> &'static [&'static str] {
    use QuestionError as E;
    match error {
        E::NothingToRelease { .. } => &["it follows from other lines; release one of those"],
        E::NoPieceToAimAt { .. } => &["write a line such as `make 24 pieces of 920 g`, or ask for `dough`"],
        E::NoSingleReason { .. } => {
            &["state the figures that `levamen formula` shows with `--want`, and ask again"]
        }
        E::NothingToCompare { .. } => &[
            "name a second dough",
            "or say how the dough should be instead, such as --want \"hydration 78 %\"",
        ],
        E::NoSize { .. } => &[
            "write --pieces 24 --piece 920g, --dough 22kg, --to-divide 21.5kg, --flour 10kg or --have levain=4.2kg",
        ],
        E::NoPieceCount { .. } => {
            &["write --with-old-dough with --pieces 24 --piece 920g, or with --to-divide 21.5kg"]
        }
        E::NoPieceWeight { .. } => &["write it: --pieces 24 --piece 920g"],
        E::NothingRipens { .. } => {
            &["write into its stage how long it takes you, such as `ripens 12 h at 21 °C`"]
        }
        E::NoRipening { .. } => &["write into it how long it takes you, such as `ripens 12 h at 21 °C`"],
        E::NoLeaven { .. } => &[
            "seed is a line such as `from mother culture 20 %` beside flour",
            "what is yeast says so in its ingredient: `yeast fresh`, `yeast instant` or how much fresh yeast it replaces",
        ],
        E::StartedWithSeed => &["write --seed, such as --seed 10%"],
        E::StartedWithYeast => &["write --yeast, such as --yeast 0.1%"],
        E::NothingToFind => &["leave out the one that shall be found"],
        E::WhichCulture => &["name it: --culture \"liquid culture\""],
        E::NothingNeeded { .. } => {
            &["look at the dates of the table, or name the culture to keep alive: --culture"]
        }
        E::NoTimeZone { .. } => {
            &["write its name in the IANA database, such as Europe/Lisbon, on the bakery's card"]
        }
        error => of_temperatures(error),
    }
}

fn of_temperatures(error: &QuestionError) -> &'static [&'static str] {
    use QuestionError as E;
    match error {
        E::NoDoughTemperature => {
            &["write --dough-at 24°C, or a card `method` of the dough with `dough at 24 °C`"]
        }
        E::NoFlourTemperature => &["write --flour 20°C, or `flour store 20 °C` on the bakery's card"],
        E::NoRoomTemperature => &["write --room 22°C, or a card `room` with `stands at 22 °C`"],
        E::RoomByTheHour { .. } => {
            &["say when it is mixed, such as --time 02:00, or how warm it is, such as --room 22°C"]
        }
        E::NoFriction => &[
            "write --friction 8°C, name noted batches with --noted, or write `warms 8 °C` on the card of the mixer that the dough's method names",
        ],
        E::NoPreFerment { .. } => &["leave out --preferment"],
        E::NoLikeBatch { .. } => {
            &["give the friction itself, such as --friction 8°C, measure the dough, and note the batch"]
        }
        E::NoTubs => &["write --tubs 5l,10l,20l, or a card `tub` with `volume 20 l`"],
        E::TubsTooSmall { .. } => &["name larger tubs, such as --tubs 5l,10l,20l"],
        E::NoCultureTemperature { .. } => {
            &["write it into the book, such as `ripens 8 to 10 h at 24 °C`, or leave `--kept-at` out"]
        }
        _ => &[],
    }
}

/// How to mend the name of a file.
pub fn help_with_file(error: &FileError) -> Vec<String> {
    let line = match error {
        FileError::BookIsFile { folder, .. } => {
            format!("write `--book {folder}`: every *.dough file in it is read")
        }
        FileError::NoBook { .. } => "`--book DIR` names the folder with the *.dough files".to_owned(),
        FileError::Taken { .. } => "name another file, or add --replace".to_owned(),
        FileError::LinkToNothing { .. } => "take the link away, or name another file".to_owned(),
        FileError::IsRead { .. } => "name another file for what is written".to_owned(),
        FileError::WouldBeDough { .. } => "name a file that does not end in .dough".to_owned(),
        FileError::NotWritten(_) => return Vec::new(),
    };
    vec![line]
}
