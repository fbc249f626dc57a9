//! What can be wrong with a table: one function for each problem, which holds its words.

mod flow;
mod row;
mod table;

pub(crate) use flow::*;
pub(crate) use row::*;
pub(crate) use table::*;

/// Names in a row: `a`, `b` and `c`, each in back quotes; of many only the first.
fn listed(names: &[&str], joint: &str) -> String {
    const MOST: usize = 5;
    let mut quoted: Vec<String> = names.iter().take(MOST).map(|name| format!("`{name}`")).collect();
    if names.len() > MOST {
        quoted.push(format!("{} more", names.len() - MOST));
    }
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} {joint} {last}", first.join(", ")),
        None => String::new(),
    }
}
