//! What is wrong with a question, in the words of a command line: which option to write, and how.

use levamen::{AskedField, FIELD_UNNEEDED, Field, Hint, Problem, QuestionError};
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

/// The option for a field of a question.
pub const fn name(field: AskedField) -> &'static str {
    match field {
        AskedField::Target => "--to",
        AskedField::Stage => "--stage",
        AskedField::Share => "--share",
        AskedField::Hydration => "--hydration",
        AskedField::Seed => "--seed",
        AskedField::GivenBack => "--given-back",
        AskedField::Culture => "--culture",
        AskedField::Flour => "--flour",
        AskedField::Yeast => "--yeast",
        AskedField::Hours => "--hours",
        AskedField::RipensAt => "--at",
        AskedField::Name => "--name",
        AskedField::Most => "--most",
        AskedField::Pieces => "--pieces",
        AskedField::WithOldDough => "--with-old-dough",
        AskedField::FeedAt => "--feed-at",
        AskedField::From => "--from",
        AskedField::OnHand => "--on-hand",
        AskedField::Tap => "--tap",
        AskedField::PreFerment => "--preferment",
        AskedField::Noted => "--noted",
        AskedField::Unit => "--unit",
        AskedField::SkipWrong => "--skip-wrong",
    }
}

/// Advice that names options instead of fields.
pub fn spell<'h>(hints: impl IntoIterator<Item = &'h mut Hint>) {
    for hint in hints {
        *hint = hint.spelled(name).into();
    }
}

/// Problems whose advice names options; and so does the message of one that is about a field.
pub fn spell_problems(problems: &mut [Problem]) {
    for problem in problems {
        if let (FIELD_UNNEEDED, Some(field)) = (problem.code, problem.help.iter().find_map(Hint::field)) {
            problem.message = problem.message.replacen(field.word(), name(field), 1);
        }
        spell(&mut problem.help);
    }
}

/// How to mend a question: as the library says where it is the book's matter, and otherwise with which option.
pub fn help(error: &QuestionError) -> Vec<String> {
    use QuestionError as E;
    match error {
        E::UnknownDough { near: None, is_empty: true, .. } => {
            vec!["the book is empty: `--book DIR` names another folder with *.dough files".to_owned()]
        }
        E::UnknownDough { near: None, .. } => vec!["`levamen list` shows what there is".to_owned()],
        E::UnknownStage { near: None, stages, .. } if stages.is_empty() => {
            vec!["it has no stage but the final dough: use --dough or --flour".to_owned()]
        }
        E::LossWithoutSize => Vec::new(),
        error => {
            let options = of_sizes(error).iter().chain(of_temperatures(error)).map(|line| (*line).to_owned());
            error.advice().iter().map(|hint| hint.spelled(name)).chain(options).collect()
        }
    }
}

fn of_sizes(error: &QuestionError) -> &'static [&'static str] {
    use QuestionError as E;
    match error {
        E::NoSingleReason { .. } => {
            &["state the figures that `levamen formula` shows with `--want`, and ask again"]
        }
        E::NoSize { .. } => &[
            "write --pieces 24 --piece 920g, --dough 22kg, --to-divide 21.5kg, --flour 10kg or --have levain=4.2kg",
        ],
        E::NoOldDough { .. } => &["leave `--with-old-dough` out: nothing of it is kept for the next"],
        E::NoPieceCount { .. } => {
            &["write --with-old-dough with --pieces 24 --piece 920g, or with --to-divide 21.5kg"]
        }
        E::NoPieceWeight { .. } => &["write it: --pieces 24 --piece 920g"],
        E::StartedWithSeed => &["write --seed, such as --seed 10%"],
        E::StartedWithYeast => &["write --yeast, such as --yeast 0.1%"],
        E::WhichCulture => &["name it: --culture \"liquid culture\""],
        E::NothingNeeded { .. } => {
            &["look at the dates of the table, or name the culture to keep alive: --culture"]
        }
        _ => &[],
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
        FileError::NotThere { .. } => "look whether its name is right, and that of its folder".to_owned(),
        FileError::NoOrders { .. } => "put orders.csv there, with the columns date,customer,product,quantity, or name a file: --orders FILE".to_owned(),
        FileError::NotWritten(_) => return Vec::new(),
    };
    vec![line]
}
