//! The smallest parsers: words, phrases and the space between them.

use nom::bytes::complete::tag;
use nom::combinator::{eof, verify};
use nom::error::{ErrorKind, ParseError};
use nom::sequence::{delimited, preceded};
use nom::{IResult, Parser};

use crate::space::{first_word, trim_start};
use crate::syntax_error::SyntaxError;

/// What a parser of this crate gives back.
pub(crate) type Read<'t, T> = IResult<&'t str, T, Mismatch<'t>>;

/// Why a parser does not fit: simply not this form, or this form with an error in it.
#[derive(Debug)]
pub(crate) enum Mismatch<'t> {
    /// The words are something else; another parser may fit.
    OtherForm,
    /// The words are meant to be this form.
    Error(SyntaxError<'t>),
}

impl<'t> ParseError<&'t str> for Mismatch<'t> {
    fn from_error_kind(_: &'t str, _: ErrorKind) -> Self {
        Self::OtherForm
    }

    fn append(_: &'t str, _: ErrorKind, other: Self) -> Self {
        other
    }
}

/// An error that no other parser can put right.
pub(crate) fn fail<T>(error: SyntaxError<'_>) -> Result<T, nom::Err<Mismatch<'_>>> {
    Err(nom::Err::Failure(Mismatch::Error(error)))
}

/// What a parser says of a whole line: its value, the error in it, or `None` where it is another form.
pub(crate) fn finish<T>(read: Read<'_, T>) -> Result<Option<(&str, T)>, SyntaxError<'_>> {
    match read {
        Ok(done) => Ok(Some(done)),
        Err(nom::Err::Error(Mismatch::Error(error)) | nom::Err::Failure(Mismatch::Error(error))) => {
            Err(error)
        }
        Err(_) => Ok(None),
    }
}

/// Any space.
#[expect(clippy::unnecessary_wraps, reason = "parsers are put together by their one form")]
pub(crate) fn blanks(input: &str) -> Read<'_, &str> {
    let rest = trim_start(input);
    Ok((rest, input.get(..input.len() - rest.len()).unwrap_or_default()))
}

/// A word: everything up to a space or a comma.
pub(crate) fn word(input: &str) -> Read<'_, &str> {
    match first_word(input) {
        ("", _) => Err(nom::Err::Error(Mismatch::OtherForm)),
        (word, rest) => Ok((rest, word)),
    }
}

/// One given word, after any space.
pub(crate) fn given<'t>(
    expected: &'static str,
) -> impl Parser<&'t str, Output = &'t str, Error = Mismatch<'t>> {
    preceded(blanks, verify(word, move |found: &str| found == expected))
}

/// A comma, with any space around it.
pub(crate) fn comma(input: &str) -> Read<'_, &str> {
    delimited(blanks, tag(","), blanks).parse(input)
}

/// The end of the line's words.
pub(crate) fn end(input: &str) -> Read<'_, &str> {
    preceded(blanks, eof).parse(input)
}
