//! How much to make, as it is said on the command line.

use levamen_balance::{Balance, Size};
use levamen_language::{Amount, AmountKind, Problem, TextId, nearest, read_amount};
use levamen_quantity::{Exact, Mass, Share};

use crate::args::BatchSize;
use crate::failure::Failure;

/// How a weight is written.
const MASS: &str = "write a number and g, kg, lb or oz, such as 920g or 4.2kg";
/// How the share that is lost is written.
const SHARE: &str = "write a share such as --losing 2%, or leave it out";

impl BatchSize {
    /// Whether nothing is said.
    pub fn is_unsaid(&self) -> bool {
        self.pieces.is_none() && self.dough.is_none() && self.flour.is_none() && self.have.is_none()
    }

    /// The dough at this size.
    ///
    /// # Errors
    /// An amount that cannot be read, a stage that the dough does not have.
    pub fn apply(&self, balance: &mut Balance) -> Result<(), Failure> {
        if self.is_unsaid() {
            return if self.losing.is_some() {
                Err(Failure::usage("`--losing` says what is lost of `--pieces` or of `--dough`"))
            } else {
                Ok(())
            };
        }
        let written = Written::of(balance);
        let loss = self.loss(&written)?;
        let (flour, pieces) = if let Some(pieces) = &self.pieces {
            let (count, piece) = (count(pieces)?, self.piece(balance, &written)?);
            let exact = i64::try_from(count).map(Exact::from).map_err(|_| too_many(pieces))?;
            let dough = Mass::from_grams(&exact * piece.grams());
            (flour_of(balance, &dough, &loss), Some((count, piece)))
        } else if let Some(dough) = &self.dough {
            let flour = flour_of(balance, &mass("--dough", dough)?, &loss);
            let pieces = written.pieces_from(balance, &flour, &loss);
            (flour, pieces)
        } else {
            let flour = match &self.flour {
                Some(flour) => mass("--flour", flour)?,
                None => self.flour_for_stage(balance)?,
            };
            let pieces = written.pieces_from(balance, &flour, &loss);
            (flour, pieces)
        };
        balance.size = Size::Make { flour, pieces, loss };
        Ok(())
    }

    /// What a piece weighs: as it is said here, and otherwise as the file says.
    fn piece(&self, balance: &Balance, written: &Written) -> Result<Mass, Failure> {
        match (&self.piece, &written.piece) {
            (Some(piece), _) => mass("--piece", piece),
            (None, Some(piece)) => Ok(piece.clone()),
            (None, None) => {
                let message = format!("`{}` does not say what a piece weighs", balance.dough);
                Err(Failure::usage(message).help("write it: --pieces 24 --piece 920g"))
            }
        }
    }

    /// The share that is lost: as it is said here, and otherwise as the file says.
    fn loss(&self, written: &Written) -> Result<Share, Failure> {
        let Some(words) = &self.losing else { return Ok(written.loss.clone()) };
        // An amount of a text is never nothing; here it takes back what the file says.
        if words.trim().trim_end_matches('%').trim_end() == "0" {
            return Ok(Share::default());
        }
        let amount = amount("--losing", words, SHARE)?;
        match amount.kind {
            AmountKind::Percent { percent, of: None } if percent < Exact::HUNDRED => {
                Ok(Share::from_percent(percent))
            }
            _ => Err(Failure::usage(format!("`--losing {words}` is no share under 100 %")).help(SHARE)),
        }
    }

    /// The whole flour for which a stage makes what is at hand of it.
    fn flour_for_stage(&self, balance: &Balance) -> Result<Mass, Failure> {
        let words = self.have.as_deref().unwrap_or_default();
        let Some((name, have)) = words.rsplit_once('=') else {
            return Err(Failure::usage(format!("`--have {words}` names no stage and weight"))
                .help("write the stage, `=` and what there is of it: --have levain=4.2kg"));
        };
        let have = mass("--have", have)?;
        let wanted = levamen_formula::key(name);
        let ahead = balance.stages.split_last().map_or(&[][..], |(_, ahead)| ahead);
        let Some(stage) = ahead.iter().find(|stage| levamen_formula::key(&stage.name) == wanted) else {
            let names: Vec<&str> = ahead.iter().map(|stage| stage.name.as_str()).collect();
            let failure =
                Failure::usage(format!("`{}` has no stage called `{}`", balance.dough, name.trim()));
            return Err(match (nearest(name, names.iter().copied()).first(), names.as_slice()) {
                (Some(near), _) => failure.help(format!("did you mean `{near}`?")),
                (None, []) => failure.help("it has no stage but the final dough: use --dough or --flour"),
                (None, names) => failure.help(format!("its stages are {}", names.join(", "))),
            });
        };
        // What stands ready is taken and, where the seed is given back, kept; it is not made to be left over.
        let ready = stage.taken.fraction() + stage.given_back.fraction();
        let flour = have.grams().checked_div(&ready);
        flour
            .map(Mass::from_grams)
            .ok_or_else(|| Failure::usage(format!("`{name}` is not taken into the dough")))
    }
}

/// What the file's `make` line says, and another size leaves as it is.
struct Written {
    piece: Option<Mass>,
    loss: Share,
}

impl Written {
    fn of(balance: &Balance) -> Self {
        match &balance.size {
            Size::Make { pieces, loss, .. } => {
                Self { piece: pieces.as_ref().map(|(_, piece)| piece.clone()), loss: loss.clone() }
            }
            Size::Open | Size::Weights { .. } => Self { piece: None, loss: Share::default() },
        }
    }

    /// As many whole pieces as there is dough for; `None` where there is not enough for one.
    fn pieces_from(&self, balance: &Balance, flour: &Mass, loss: &Share) -> Option<(u64, Mass)> {
        let piece = self.piece.as_ref()?;
        let dough = loss.rest().of(&balance.weight.of(flour));
        let count = dough.grams().checked_div(piece.grams())?.floor().to_i64()?;
        let count = u64::try_from(count).ok().filter(|count| *count > 0)?;
        Some((count, piece.clone()))
    }
}

/// The whole flour of so much dough after the loss.
fn flour_of(balance: &Balance, dough: &Mass, loss: &Share) -> Mass {
    let mixed = dough.grams() / loss.rest().fraction();
    Mass::from_grams(mixed.checked_div(balance.weight.fraction()).unwrap_or_default())
}

fn count(words: &str) -> Result<u64, Failure> {
    match words.trim().parse() {
        Ok(0) => Err(Failure::usage("`--pieces 0` is nothing to make").help("write --pieces 24")),
        Ok(count) => Ok(count),
        Err(_) if words.trim().bytes().all(|byte| byte.is_ascii_digit()) => Err(too_many(words)),
        Err(_) => {
            Err(Failure::usage(format!("`--pieces {words}` is no whole number")).help("write --pieces 24"))
        }
    }
}

fn too_many(words: &str) -> Failure {
    Failure::usage(format!("{words} pieces are more than can be counted"))
}

/// Reads a weight that was given with an option.
///
/// # Errors
/// It is no weight.
pub fn mass(option: &str, words: &str) -> Result<Mass, Failure> {
    match amount(option, words, MASS)?.kind {
        AmountKind::Mass(quantity) => Ok(quantity.mass),
        _ => Err(Failure::usage(format!("`{option} {words}` is no weight")).help(MASS)),
    }
}

/// An amount by the rules of the dough texts; `form` says what is wanted here.
fn amount<'w>(option: &str, words: &'w str, form: &str) -> Result<Amount<'w>, Failure> {
    read_amount(TextId(0), words).map_err(|problem: Problem| {
        let failure = Failure::usage(format!("`{option} {words}`: {}", problem.message));
        // In a text a line may be left out, and a number may be a percentage or a weight; here neither is so.
        if ["zero", "missing-unit"].contains(&problem.code) {
            return failure.help(form);
        }
        problem.help.into_iter().fold(failure, Failure::help)
    })
}
