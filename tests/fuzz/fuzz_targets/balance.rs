//! Any text is read as a book: each of its doughs is balanced, adds up when it is added up again apart from the
//! tool and is as the text states, or it is refused with a reason. Nothing panics.

#![no_main]

use levamen_language::{TextId, decode};
use levamen_tests::audit::verified;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = decode(TextId(0), bytes) else { return };
    if let Err(wrong) = verified(text) {
        panic!("{wrong}\n\n{text}");
    }
});
