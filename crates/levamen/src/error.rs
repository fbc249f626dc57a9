//! Why a question has no answer.

use levamen_ferment::FermentError;
use levamen_language::{Hint, Problem, Texts};
use levamen_quantity::Mass;
use levamen_sheets::RoundingError;
use thiserror::Error;

/// Why a question has no answer.
#[derive(Debug)]
pub enum Error {
    /// The book, or another text, has problems.
    Problems {
        /// The problems.
        problems: Vec<Problem>,
        /// The texts that their places are in.
        texts: Texts,
    },
    /// The question lacks something, or asks for what cannot be.
    Question(QuestionError),
}

/// What is wrong with a question. Every edge says in its own words how to mend it: a command names its options, a page its fields.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum QuestionError {
    /// The book has no dough of that name.
    #[error("the book has no dough called `{name}`")]
    UnknownDough {
        /// The name that was asked for.
        name: String,
        /// A name of the book that was perhaps meant.
        near: Option<String>,
        /// Whether the book has no dough at all.
        is_empty: bool,
    },
    /// The book has no culture of that name.
    #[error("the book has no culture called `{name}`")]
    UnknownCulture {
        /// The name that was asked for.
        name: String,
        /// What may have been meant, as a sentence.
        advice: String,
    },
    /// A dough has no stage of that name.
    #[error("`{dough}` has no stage called `{name}`")]
    UnknownStage {
        /// The dough.
        dough: String,
        /// The name that was asked for.
        name: String,
        /// A stage that was perhaps meant.
        near: Option<String>,
        /// The stages that can be meant.
        stages: Vec<String>,
    },
    /// A dough has no stage of that name that could ripen.
    #[error("`{dough}` has no stage called `{name}`")]
    UnknownRipening {
        /// The dough.
        dough: String,
        /// The name that was asked for.
        name: String,
        /// The stages that ripen.
        stages: Vec<String>,
    },
    /// A figure that is not one of the dough's.
    #[error("{message}")]
    Figure {
        /// Where the figure was asked for.
        field: Field,
        /// The figure as it was written.
        words: String,
        /// What is wrong with it.
        message: String,
        /// How to mend it.
        help: Vec<Hint>,
    },
    /// A figure is to be released that no line of the dough says.
    #[error("no line of `{dough}` says it")]
    NothingToRelease {
        /// The dough.
        dough: String,
        /// The figure as it was written.
        words: String,
    },
    /// Pieces are aimed at, and the dough does not say what one weighs.
    #[error("`{dough}` does not say what a piece weighs")]
    NoPieceToAimAt {
        /// The dough.
        dough: String,
    },
    /// No line and no bound alone is the reason for the figure that is aimed at.
    #[error("no line and no bound alone says why `{words}` is what it is")]
    NoSingleReason {
        /// The figure as it was written.
        words: String,
    },
    /// Nothing says how much is made.
    #[error("nothing says how much to make of `{dough}`")]
    NoSize {
        /// The dough.
        dough: String,
    },
    /// A loss without a size that it is a loss of.
    #[error("a loss says what is lost of a size, and none is asked for")]
    LossWithoutSize,
    /// More pieces than can be counted.
    #[error("{count} pieces are more than can be counted")]
    TooManyPieces {
        /// How many were asked for.
        count: String,
    },
    /// The dough takes no old dough of its own.
    #[error("`{dough}` takes no piece of its own last batch")]
    NoOldDough {
        /// The dough.
        dough: String,
    },
    /// The dough's file does not count pieces.
    #[error("`{dough}` does not say how many pieces are made")]
    NoPieceCount {
        /// The dough.
        dough: String,
    },
    /// The dough's file does not say what a piece weighs.
    #[error("`{dough}` does not say what a piece weighs")]
    NoPieceWeight {
        /// The dough.
        dough: String,
    },
    /// A stage of which there is some at hand, and nothing of it goes into the dough.
    #[error("`{stage}` is not taken into the dough")]
    NotTaken {
        /// The stage.
        stage: String,
    },
    /// No stage of the dough says how long it ripens.
    #[error("`{dough}` has no pre-ferment with a `ripens` line")]
    NothingRipens {
        /// The dough.
        dough: String,
    },
    /// Several stages ripen, and none is named.
    #[error("`{dough}` has several stages that ripen")]
    WhichStage {
        /// The dough.
        dough: String,
        /// The stages that ripen.
        stages: Vec<String>,
    },
    /// A stage says no time and temperature.
    #[error("`{stage}` does not say how long it ripens, and how warm")]
    NoRipening {
        /// The stage.
        stage: String,
    },
    /// A stage has no seed and no baker's yeast.
    #[error("nothing in `{stage}` tells how it ripens: no seed and no baker's yeast")]
    NoLeaven {
        /// The stage.
        stage: String,
    },
    /// An amount of yeast for a stage that is started with seed.
    #[error("the stage is started with seed")]
    StartedWithSeed,
    /// An amount of seed for a stage that is started with yeast.
    #[error("the stage is started with yeast")]
    StartedWithYeast,
    /// Time, warmth and amount are all given.
    #[error("the time, the warmth and the amount of seed or yeast are all given")]
    NothingToFind,
    /// Nothing says how warm the dough shall be.
    #[error("nothing says how warm the dough shall be")]
    NoDoughTemperature,
    /// Nothing says how warm the flour is.
    #[error("nothing says how warm the flour is")]
    NoFlourTemperature,
    /// Nothing says how warm the room is.
    #[error("nothing says how warm the room is")]
    NoRoomTemperature,
    /// A room is warmer or colder by the hour, and no hour is given.
    #[error("how warm `{room}` is depends on the hour")]
    RoomByTheHour {
        /// The room.
        room: String,
    },
    /// Nothing says how much mixing warms the dough.
    #[error("nothing says how much the mixer warms the dough")]
    NoFriction,
    /// A temperature for a pre-ferment that the dough does not have.
    #[error("nothing that fermented ahead goes into `{dough}`")]
    NoPreFerment {
        /// The dough.
        dough: String,
    },
    /// No batch was measured that is like the one asked about.
    #[error("no batch in `{mixer}` with half to twice {kilograms} kg of dough is noted, {} a pre-ferment", if *.with_pre_ferment { "with" } else { "without" })]
    NoLikeBatch {
        /// The mixer.
        mixer: String,
        /// How much dough is mixed, in kilograms.
        kilograms: String,
        /// Whether a pre-ferment goes into it.
        with_pre_ferment: bool,
    },
    /// Nothing says which tubs there are.
    #[error("nothing says which tubs there are")]
    NoTubs,
    /// No number of the tubs holds a stage.
    #[error("no number of such tubs that can be counted holds `{stage}`")]
    TubsTooSmall {
        /// The stage.
        stage: String,
    },
    /// The dough has no stage that takes a tub.
    #[error("`{dough}` has no pre-ferment that needs a tub")]
    NothingForTubs {
        /// The dough.
        dough: String,
    },
    /// A culture's ripening has no temperature.
    #[error("`{culture}` does not say how warm it ripens")]
    NoCultureTemperature {
        /// The culture.
        culture: String,
    },
    /// What is on hand, where several cultures are needed.
    #[error("what is on hand can be of one culture only, and several are needed")]
    WhichCulture,
    /// No row of a table is for the days of the plan.
    #[error("nothing is needed from {first} to {last}")]
    NothingNeeded {
        /// The first day.
        first: jiff::civil::Date,
        /// The last day.
        last: jiff::civil::Date,
    },
    /// The bakery's card names a time zone that there is not.
    #[error("`{name}` is no time zone")]
    NoTimeZone {
        /// The name.
        name: String,
    },
    /// There is no day after this one.
    #[error("{date} is past the calendar")]
    PastTheCalendar {
        /// The date.
        date: jiff::civil::Date,
    },
}

/// A field of a question that holds the name of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// The figure that is explained.
    Figure,
    /// A figure that is released.
    Free,
    /// The figure of which there shall be most.
    Most,
    /// The figure of which there shall be least.
    Least,
}

impl Error {
    /// A problem that has no place in any text.
    #[must_use]
    pub fn problem(problem: Problem) -> Self {
        Self::Problems { problems: vec![problem], texts: Texts::default() }
    }

    /// What cannot happen, and is a mistake of this program where it does.
    pub(crate) fn internal(what: &str) -> Self {
        debug_assert!(false, "{what}");
        Self::problem(Problem::internal(what))
    }
}

impl From<QuestionError> for Error {
    fn from(error: QuestionError) -> Self {
        Self::Question(error)
    }
}

/// What a growth model or a balance of heats refuses.
impl From<FermentError> for Error {
    fn from(refusal: FermentError) -> Self {
        let FermentError { code, message, notes, help } = refusal;
        Self::problem(Problem { notes, help, ..Problem::error(code, message) })
    }
}

/// Why figures cannot be rounded.
impl From<RoundingError> for Error {
    fn from(error: RoundingError) -> Self {
        Self::problem(error.problem())
    }
}

/// A mass in kilograms, for a message.
pub(crate) fn kilograms(mass: &Mass) -> String {
    mass.in_unit(levamen_quantity::MassUnit::Kilogram).to_fixed(1)
}
