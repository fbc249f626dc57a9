//! A conversion as it is asked for on the command line.

use levamen::quantity::Share;
use levamen::{
    AmountKind, ConversionRequest, ConversionTarget, NO_FIGURE, Problem, RipeningTemperature, RipeningTime,
    Statement, TextId, read_fact, read_ripening, read_share, read_temperature,
};

use crate::args::ConvertArguments;
use crate::failure::Failure;
use crate::measure::amount_refused;

impl ConvertArguments {
    /// What is asked for.
    ///
    /// # Errors
    /// A word or an amount that cannot be read.
    pub fn request(&self) -> Result<ConversionRequest, Failure> {
        let mut request = ConversionRequest::new(self.target()?);
        request.stage.clone_from(&self.stage);
        request.share = share("--share", self.share.as_deref())?;
        request.hydration = share("--hydration", self.hydration.as_deref())?;
        request.seed = share("--seed", self.seed.as_deref())?;
        request.given_back = self.given_back;
        request.culture.clone_from(&self.culture);
        request.flours.clone_from(&self.flour);
        (request.yeast, request.dose) = self.yeast()?;
        request.time = self.time()?;
        request.warmth = self.warmth()?;
        request.name.clone_from(&self.name);
        Ok(request)
    }

    fn target(&self) -> Result<ConversionTarget, Failure> {
        ConversionTarget::read(&self.to).map_err(|near| {
            let failure =
                Failure::usage(format!("`--to {}` is no kind that a dough can be turned into", self.to));
            let names: Vec<&str> = if near.is_empty() {
                ConversionTarget::ALL.map(ConversionTarget::name).to_vec()
            } else {
                near
            };
            let (last, first) = names.split_last().unwrap_or((&"poolish", &[]));
            let said =
                if first.is_empty() { (*last).to_owned() } else { format!("{} or {last}", first.join(", ")) };
            failure.help(if names.len() > 3 {
                format!("it is one of {said}")
            } else {
                format!("did you mean {said}?")
            })
        })
    }

    /// Which yeast and how much.
    fn yeast(&self) -> Result<(Option<String>, Option<Share>), Failure> {
        let Some(words) = self.yeast.as_deref() else { return Ok((None, None)) };
        if let Ok(Statement::Weigh(weigh)) = read_fact(TextId(0), words) {
            let name = weigh.name.spaced().into_owned();
            return match weigh.amount.kind {
                AmountKind::Percent { percent, of: None } => {
                    Ok((Some(name), Some(Share::from_percent(percent))))
                }
                _ => Err(Failure::usage(format!("`--yeast {words}` has no share of the flour"))
                    .help("write a share of the pre-ferment's flour, such as --yeast \"fresh yeast 0.2%\"")),
            };
        }
        if words.contains(|character: char| character.is_ascii_digit()) {
            return Ok((None, share("--yeast", Some(words))?));
        }
        Ok((Some(words.to_owned()), None))
    }

    fn time(&self) -> Result<Option<RipeningTime>, Failure> {
        let Some(words) = self.hours.as_deref().map(str::trim) else { return Ok(None) };
        // The option's own name says the unit.
        let is_number = words.parse::<f64>().is_ok();
        let time = if is_number { format!("{words} h") } else { words.to_owned() };
        let ripens =
            read_ripening(TextId(0), &time).map_err(|problem| refused("--hours", words, &problem))?;
        if ripens.most.is_some() || ripens.temperature.is_some() {
            return Err(Failure::usage(format!("`--hours {words}` is no single time"))
                .help("write --hours 14h; a temperature goes with --at"));
        }
        Ok(Some(RipeningTime { figure: ripens.least_figure.clone(), unit: ripens.unit }))
    }

    fn warmth(&self) -> Result<Option<RipeningTemperature>, Failure> {
        let Some(words) = self.at.as_deref() else { return Ok(None) };
        let (_, figure, unit) =
            read_temperature(TextId(0), words).map_err(|problem| refused("--at", words, &problem))?;
        Ok(Some(RipeningTemperature { figure, unit }))
    }
}

/// Why words are no time or no temperature, and how one is written here.
fn refused(option: &str, words: &str, problem: &Problem) -> Failure {
    let form = if option == "--at" {
        "write --at 21°C or --at 70°F"
    } else {
        "write --hours 14h or --hours 90min"
    };
    let failure = match problem.code {
        NO_FIGURE => Failure::usage(format!("`{option} {words}` cannot be read")),
        _ => Failure::usage(format!("`{option} {words}`: {}", problem.message)),
    };
    failure.help(form)
}

/// A share of the flour.
fn share(option: &str, words: Option<&str>) -> Result<Option<Share>, Failure> {
    let Some(words) = words else { return Ok(None) };
    let form = format!("write a share such as {option} 20%, or leave it out");
    let read = read_share(TextId(0), words).map(Some);
    read.map_err(|problem| amount_refused(option, words, &problem, "share of the flour", &form))
}
