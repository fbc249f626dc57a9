//! Files that output must equal byte for byte. Run the tests with `LEVAMEN_REWRITE=1` to write them anew, and read
//! the difference before keeping it.

use std::path::{Path, PathBuf};
use std::{env, fs};

/// Compares with a file of this crate's tests.
pub fn check(name: &str, output: &str) {
    check_file(&here("tests/views/golden").join(name), output);
}

/// Compares with a file anywhere.
pub fn check_file(path: &Path, output: &str) {
    if env::var_os("LEVAMEN_REWRITE").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, output).unwrap();
    }
    let golden = fs::read_to_string(path).unwrap_or_default();
    assert!(golden == output, "{} differs; now it is\n{output}", path.display());
}

/// A path in this crate.
pub fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}
