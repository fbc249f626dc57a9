//! Files that are short, line by line: standing orders and exceptions.

use crate::block::{Block, Blocks};
use crate::mistake::{Mistake, Mistakes, excerpt};
use crate::record::Records;
use crate::shape::{self, Shape};
use crate::wrong::{Line, Wrong};

/// Goes over the lines of some files; `each` gets the cells of a line with its place, and says what is wrong with it.
pub(crate) fn each(
    mut blocks: Blocks,
    mistakes: &mut Mistakes,
    mut each: impl FnMut(&Records, Line) -> Vec<Wrong>,
) {
    let (mut block, mut number) = (Block::default(), 1);
    while blocks.next(&mut block) {
        if let Some(headings) = block.headings {
            number = 1 + headings;
        }
        let (file, order) = (block.file.name.clone(), block.file.order);
        let mut records = Records::new(&block.bytes);
        while let Some(record) = records.next(&block.file.layout) {
            let wrong = match shape::of(&block.bytes, record, &block.file.layout) {
                Shape::Blank => Vec::new(),
                Shape::Wrong(wrong) => vec![wrong],
                Shape::Fine => each(&records, Line { file: file.clone(), number }),
            };
            for wrong in wrong {
                let row = excerpt(block.bytes.get(record.start..record.end).unwrap_or_default());
                mistakes.add(Mistake { file: file.clone(), line: number, order, row, wrong });
            }
            number += 1 + record.breaks;
        }
        if let Some(wrong) = block.fault.take() {
            mistakes.add(Mistake { file, line: number, order, row: String::new(), wrong });
        }
    }
}
