//! `levamen completions` and `levamen man`

use clap::CommandFactory;

use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;

/// Prints completions for a shell.
pub fn completions(shell: clap_complete::Shell) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "levamen", &mut script);
    output::result(&script)
}

/// What the manual says of exit codes, as a section in roff.
const EXIT_STATUS: &str = "\
.SH EXIT STATUS
0: done. 1: the book, a file or what was typed in has problems; standard error tells which. 2: wrongly called.
";

/// The manual: a page for the whole, and after it a part for each command.
pub fn man() -> Result<(), Failure> {
    let mut page = Vec::new();
    let mut command = Arguments::command();
    command.build();
    let written = clap_mangen::Man::new(command.clone()).render(&mut page);
    let parts = command.get_subcommands().filter(|part| part.get_name() != "help").try_for_each(|part| {
        let man = clap_mangen::Man::new(part.clone());
        page.extend_from_slice(format!(".SH levamen {}\n", part.get_name()).as_bytes());
        man.render_synopsis_section(&mut page)?;
        man.render_description_section(&mut page)?;
        man.render_options_section(&mut page)
    });
    page.extend_from_slice(EXIT_STATUS.as_bytes());
    match written.and(parts) {
        Ok(()) => output::result(&page),
        Err(error) => Err(Failure::usage(format!("the manual could not be made: {error}"))),
    }
}
