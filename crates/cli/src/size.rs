//! How much to make, as it is said on the command line.

use levamen_balance::{Balance, StatedSize};
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
        let sizes = [&self.pieces, &self.dough, &self.to_divide, &self.flour, &self.have];
        sizes.iter().all(|size| size.is_none())
    }

    /// The dough at this size.
    ///
    /// # Errors
    /// An amount that cannot be read, a stage that the dough does not have.
    pub fn apply(&self, balance: &mut Balance) -> Result<(), Failure> {
        if self.is_unsaid() && !self.with_old_dough {
            return if self.losing.is_some() {
                Err(Failure::usage("`--losing` says what is lost of `--pieces`, `--dough` or `--to-divide`"))
            } else {
                Ok(())
            };
        }
        let written = Written::of(balance);
        let loss = self.loss(&written)?;
        let kept = self.kept(balance)?;
        let (flour, pieces) = if let Some(count) = self.count(balance, &written)? {
            let piece = self.piece(balance, &written)?;
            let exact = i64::try_from(count).map(Exact::from).map_err(|_| too_many(&count.to_string()))?;
            let divided = Mass::from_grams(&exact * piece.grams());
            (flour_to_divide(balance, &divided, &loss, &kept), Some((count, piece)))
        } else {
            let flour = self.flour(balance, &loss, &kept)?;
            let pieces = written.pieces_from(balance, &flour, &loss);
            (flour, pieces)
        };
        balance.size = StatedSize::Make { flour, pieces, loss };
        Ok(())
    }

    /// What of the dough is kept for its next batch, where a size is asked for with that in it.
    fn kept(&self, balance: &Balance) -> Result<Share, Failure> {
        let kept = balance.of_last_batch();
        match (self.with_old_dough, kept.fraction().is_zero()) {
            (false, _) => Ok(Share::default()),
            (true, false) => Ok(kept),
            (true, true) => {
                Err(Failure::usage(format!("`{}` takes no piece of its own last batch", balance.dough))
                    .help("leave `--with-old-dough` out: nothing of it is kept for the next"))
            }
        }
    }

    /// How many pieces: as many as are said here, and with old dough alone as many as the file says; `None` where the
    /// size is no count of pieces.
    fn count(&self, balance: &Balance, written: &Written) -> Result<Option<u64>, Failure> {
        match &self.pieces {
            Some(pieces) => count(pieces).map(Some),
            None if !self.is_unsaid() => Ok(None),
            None => written.count.map(Some).ok_or_else(|| {
                Failure::usage(format!("`{}` does not say how many pieces are made", balance.dough))
                    .help("write --with-old-dough with --pieces 24 --piece 920g, or with --to-divide 21.5kg")
            }),
        }
    }

    /// The whole flour of a size that is no count of pieces.
    fn flour(&self, balance: &Balance, loss: &Share, kept: &Share) -> Result<Mass, Failure> {
        match (&self.dough, &self.to_divide, &self.flour) {
            (Some(dough), ..) => Ok(flour_of(balance, &mass("--dough", dough)?)),
            (_, Some(divided), _) => Ok(flour_to_divide(balance, &mass("--to-divide", divided)?, loss, kept)),
            (.., Some(flour)) => mass("--flour", flour),
            (None, None, None) => self.flour_for_stage(balance),
        }
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
    count: Option<u64>,
    piece: Option<Mass>,
    loss: Share,
}

impl Written {
    fn of(balance: &Balance) -> Self {
        match &balance.size {
            StatedSize::Make { pieces, loss, .. } => Self {
                count: pieces.as_ref().map(|(count, _)| *count),
                piece: pieces.as_ref().map(|(_, piece)| piece.clone()),
                loss: loss.clone(),
            },
            StatedSize::Open | StatedSize::Weights { .. } => {
                Self { count: None, piece: None, loss: Share::default() }
            }
        }
    }

    /// As many whole pieces as there is dough for; `None` where there is not enough for one.
    fn pieces_from(&self, balance: &Balance, flour: &Mass, loss: &Share) -> Option<(u64, Mass)> {
        let piece = self.piece.as_ref()?;
        let rest = rest_of(balance, &balance.of_last_batch());
        let count = loss.rest().of(&rest.of(flour)).grams().checked_div(piece.grams())?.floor().to_i64()?;
        let count = u64::try_from(count).ok().filter(|count| *count > 0)?;
        Some((count, piece.clone()))
    }
}

/// The whole flour of so much dough as it is mixed.
fn flour_of(balance: &Balance, dough: &Mass) -> Mass {
    Mass::from_grams(dough.grams().checked_div(balance.weight.fraction()).unwrap_or_default())
}

/// The dough without what is kept of it.
fn rest_of(balance: &Balance, kept: &Share) -> Share {
    Share::from_fraction(balance.weight.fraction() - kept.fraction())
}

/// The whole flour of so much dough to divide, once what is kept of it and the loss are gone.
fn flour_to_divide(balance: &Balance, divided: &Mass, loss: &Share, kept: &Share) -> Mass {
    let before = divided.grams() / loss.rest().fraction();
    Mass::from_grams(before.checked_div(rest_of(balance, kept).fraction()).unwrap_or_default())
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
