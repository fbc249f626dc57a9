//! A conversion as it is asked for on the command line.

use levamen::{
    ConversionRequest, ConversionTarget, NO_FIGURE, Problem, RipeningTemperature, RipeningTime, TextId,
    read_ripening, read_temperature, typed,
};

use crate::args::ConvertArguments;
use crate::failure::Failure;
use crate::measure::given;

impl ConvertArguments {
    /// What is asked for.
    ///
    /// # Errors
    /// A word or an amount that cannot be read.
    pub fn request(&self) -> Result<ConversionRequest, Failure> {
        let mut request = ConversionRequest::new(self.target()?);
        request.stage.clone_from(&self.stage);
        request.share = given("--share", self.share.as_ref(), typed::share_of_flour)?;
        request.hydration = given("--hydration", self.hydration.as_ref(), typed::share_of_flour)?;
        request.seed = given("--seed", self.seed.as_ref(), typed::share_of_flour)?;
        request.given_back = self.given_back;
        request.culture.clone_from(&self.culture);
        request.flours.clone_from(&self.flour);
        (request.yeast, request.dose) =
            given("--yeast", self.yeast.as_ref(), typed::yeast)?.unwrap_or_default();
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
