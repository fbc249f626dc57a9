//! Dough texts in their canonical layout.

use levamen_language::{Problem, TextId, Texts, tidy};

use crate::workspace::InputText;

/// What laying out some texts comes to.
#[derive(Debug, Default)]
pub struct LayoutReport {
    /// The texts that are another than before, each by its number among those that were given.
    pub changed: Vec<(usize, String)>,
    /// What keeps a text from being laid out: it could not be read, or has errors.
    pub problems: Vec<Problem>,
    /// The texts that the problems are in.
    pub texts: Texts,
}

/// Lays texts out; each stands by itself.
#[must_use]
pub fn lay_out(texts: Vec<InputText>) -> LayoutReport {
    let mut report = LayoutReport::default();
    for ((index, InputText { name, text }), id) in texts.into_iter().enumerate().zip((0..).map(TextId)) {
        match text.map_err(|problem| vec![problem]).map(|text| (tidy(id, &text), text)) {
            Ok((Ok(tidied), text)) if tidied == text => {}
            Ok((Ok(tidied), _)) => report.changed.push((index, tidied)),
            Ok((Err(found), text)) => {
                report.problems.extend(found);
                report.texts.add(id, name, text);
            }
            Err(unread) => report.problems.extend(unread),
        }
    }
    report
}
