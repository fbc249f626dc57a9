//! As much of a name as a bar has room for.

/// Pixels of a character, taken wide, so that names stay in their bars.
const CHARACTER: usize = 7;

/// A number, what is done and for what.
#[derive(Debug)]
pub struct Label<'a> {
    number: String,
    step: &'a str,
    job: &'a str,
}

impl<'a> Label<'a> {
    pub fn new(number: usize, step: &'a str, job: &'a str) -> Self {
        Self { number: number.to_string(), step, job }
    }

    /// The most that fits into a width: number, step and job; number and step; the number; nothing.
    pub fn within(&self, pixels: i64) -> String {
        let room = usize::try_from(pixels - 4).unwrap_or(0) / CHARACTER;
        let Self { number, step, job } = self;
        let labels = [format!("{number} {step} {job}"), format!("{number} {step}"), number.clone()];
        labels.into_iter().find(|label| label.chars().count() <= room).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_is_as_long_as_its_bar() {
        let label = Label::new(7, "mix", "Quayside loaf");
        let within = [200, 60, 20, 6].map(|pixels| label.within(pixels));
        assert_eq!(within, ["7 mix Quayside loaf", "7 mix", "7", ""]);
    }
}
