//! A run that takes a while says nothing of it where no terminal is.

#![cfg(unix)]

use std::io::Write;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use crate::run::folder;

const BOOK: &str = "dough Loaf\n\noverall\n  white flour  100 %\n  water  70 %\n  salt  2 %\n\n\
                    product Loaf\n  made of Loaf\n  piece  860 g\n";

#[test]
fn a_pipe_sees_no_progress() {
    let book = folder(&[("book.dough", BOOK.as_bytes())]);
    let mut command = Command::new(env!("CARGO_BIN_EXE_levamen"));
    command.args(["day", "2026-11-27", "--only", "store", "--orders", "/dev/stdin"]).current_dir(book.path());
    let piped = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = piped.spawn().unwrap();
    // Orders that come slowly: on a terminal the line would be there after half a second, and again with the last line.
    let mut orders = child.stdin.take().unwrap();
    for line in ["date,customer,product,quantity\n", "2026-11-27,Inn,Loaf,4\n", "2026-11-27,Shop,Loaf,5\n"] {
        orders.write_all(line.as_bytes()).unwrap();
        orders.flush().unwrap();
        sleep(Duration::from_millis(350));
    }
    drop(orders);
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert!(String::from_utf8(output.stdout).unwrap().contains("white flour"));
    assert!(output.status.success());
}
