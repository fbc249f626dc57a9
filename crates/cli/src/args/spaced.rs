//! `--dough 20 kg`: a figure and its unit as two words, as they are written in a dough file.

use std::ffi::OsString;

use clap::{Command, CommandFactory};

use super::Arguments;

/// The units that may stand apart from their figure.
const UNITS: [&str; 11] = ["%", "g", "kg", "lb", "oz", "ml", "l", "h", "min", "°C", "°F"];
/// What the options stand for that take a figure with a unit, as their definitions name it.
const QUANTITIES: [&str; 7] = ["MASS", "STAGE=MASS", "SHARE", "TIME", "TEMPERATURE", "DIFFERENCE", "VOLUMES"];

/// The words of a command line; a unit that stands alone behind the figure of an option joins it.
pub fn joined(words: impl IntoIterator<Item = OsString>) -> Vec<OsString> {
    let options = options(&Arguments::command());
    let mut joined: Vec<OsString> = Vec::new();
    for word in words {
        match joined.split_last_mut() {
            Some((last, before)) if is_unit(&word) && is_figure(last, before.last(), &options) => {
                last.push(" ");
                last.push(&word);
            }
            _ => joined.push(word),
        }
    }
    joined
}

/// The long names of the options that take a figure with a unit.
fn options(command: &Command) -> Vec<String> {
    let takes_quantity = |arg: &&clap::Arg| {
        let names = arg.get_value_names().unwrap_or_default();
        names.iter().any(|name| QUANTITIES.contains(&name.as_str()))
    };
    let own = command.get_arguments().filter(takes_quantity).filter_map(clap::Arg::get_long);
    let own = own.map(|name| format!("--{name}"));
    own.chain(command.get_subcommands().flat_map(options)).collect()
}

fn is_unit(word: &OsString) -> bool {
    word.to_str().is_some_and(|word| UNITS.contains(&word))
}

/// Whether a word is the figure of an option that takes a unit: `20` behind `--dough`, or `--dough=20`.
fn is_figure(word: &OsString, before: Option<&OsString>, options: &[String]) -> bool {
    let Some(word) = word.to_str().filter(|word| word.ends_with(|end: char| end.is_ascii_digit())) else {
        return false;
    };
    let is_option = |name: &str| options.iter().any(|option| option == name);
    before.and_then(|before| before.to_str()).is_some_and(is_option)
        || word.split_once('=').is_some_and(|(name, _)| is_option(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(words: &[&str]) -> Vec<String> {
        let words = joined(words.iter().map(OsString::from));
        words.into_iter().map(|word| word.into_string().unwrap_or_default()).collect()
    }

    #[test]
    fn a_unit_joins_the_figure_of_an_option() {
        assert_eq!(after(&["scale", "A", "--dough", "20", "kg"]), ["scale", "A", "--dough", "20 kg"]);
        assert_eq!(after(&["scale", "A", "--dough=20", "kg"]), ["scale", "A", "--dough=20 kg"]);
        assert_eq!(after(&["--have", "levain=4.2", "kg"]), ["--have", "levain=4.2 kg"]);
        assert_eq!(after(&["--losing", "2", "%", "--json"]), ["--losing", "2 %", "--json"]);
        assert_eq!(after(&["--dough-at", "24", "°C"]), ["--dough-at", "24 °C"]);
    }

    #[test]
    fn a_word_that_is_no_unit_of_a_figure_stays_by_itself() {
        for words in [
            &["scale", "--pieces", "24", "g"][..],
            &["scale", "--dough", "20kg", "kg"],
            &["import", "recipe7", "--unit", "g"],
            &["why", "A", "7", "g"],
        ] {
            assert_eq!(after(words), words);
        }
    }
}
