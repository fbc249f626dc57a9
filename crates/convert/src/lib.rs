//! A dough with one pre-ferment becomes the same dough with another, or with none.
//!
//! The overall formula stays: every ingredient of the whole dough but commercial yeast is the same before and after,
//! exactly. What the new pre-ferment takes leaves the final dough.
//!
//! [`convert`] takes a book as its texts, the name of a dough and a [`ConversionRequest`], and gives a [`Conversion`]: the new
//! dough as a text in canonical layout, both balances, and what was chosen where nothing was asked for. It goes in four
//! steps, a file or two each:
//!
//! 1. which pre-ferment goes: `present`;
//! 2. the dough without it: `base`, with `draft` for its text and `base/weights` where the text does not say enough;
//! 3. the new pre-ferment, and the largest share of the flour that fits: `build`, with `build/seeded` and `ingredients`;
//! 4. the yeast of the whole, the text, and its balance compared with what it was: `yeast`, `write` and `conversion`.
//!
//! Drafts are read and balanced as if they lay in the book, by `trial`.
//!
//! Only shares are chosen; every weight is left to the balance. Whatever is handed out has been read again from its
//! own text and balanced.
//!
//! ```
//! use levamen_convert::{ConversionRequest, ConversionTarget, convert};
//! use levamen_language::TextId;
//! use levamen_quantity::{Exact, Share};
//!
//! let loaf = "dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n  salt  2 %\n  fresh yeast  2 %\n";
//! let request = ConversionRequest { share: Some(Share::from_percent(Exact::from(30))), ..ConversionRequest::new(ConversionTarget::Poolish) };
//! let poolish = convert(&[&[(TextId(0), loaf)]], "Loaf", &request).unwrap();
//! assert_eq!(poolish.after.hydration, poolish.before.hydration);
//! assert_eq!(poolish.after.prefermented_flour.percent(), Exact::from(30));
//! ```

mod base;
mod build;
mod conversion;
mod draft;
mod figures;
mod ingredients;
mod present;
mod problems;
mod request;
mod target;
mod trial;
mod write;
mod yeast;

pub use conversion::{Conversion, convert};
pub use problems::FIELD_UNNEEDED;
pub use request::{ConversionRequest, RipeningTemperature, RipeningTime};
pub use target::{ConversionTarget, RaisedBy, UsualFigures};
pub use yeast::{Dose, YeastCount};
