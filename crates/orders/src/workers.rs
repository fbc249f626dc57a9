//! Blocks read by several workers, and consumed in the order of the files.

use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use crate::block::{FileBlock, FileBlocks};
use crate::reader::BlockReader;
use crate::request::OrderRequest;

/// More workers than this wait for each other more than they read.
const MOST_WORKERS: usize = 4;

/// What takes the orders of one block after the other.
pub(crate) trait BlockConsumer: Send {
    /// Takes a block that a reader has read; no block follows where it breaks.
    fn take(&mut self, block: &FileBlock, reader: &mut BlockReader) -> ControlFlow<()>;
}

/// Whose turn it is to hand over a block.
struct ConsumerTurn<'t, T> {
    consumer: &'t mut T,
    next: u64,
    is_over: bool,
}

/// How many workers this machine has work for.
pub(crate) fn worker_count() -> usize {
    thread::available_parallelism().map_or(1, NonZeroUsize::get).min(MOST_WORKERS)
}

/// Reads all blocks, and gives them to `consumer` in their order, whoever read them.
pub(crate) fn read_blocks<T: BlockConsumer>(
    blocks: FileBlocks,
    request: &OrderRequest,
    workers: usize,
    consumer: &mut T,
) {
    let blocks = Mutex::new(blocks);
    let turn = Mutex::new(ConsumerTurn { consumer, next: 0, is_over: false });
    let moved = Condvar::new();
    let work = || {
        let (mut reader, mut block) = (BlockReader::new(request), FileBlock::default());
        while lock(&blocks).next(&mut block) {
            reader.read(&block);
            let mut turn = lock(&turn);
            while turn.next != block.sequence && !turn.is_over {
                turn = moved.wait(turn).unwrap_or_else(PoisonError::into_inner);
            }
            if !turn.is_over {
                turn.is_over = turn.consumer.take(&block, &mut reader).is_break();
                turn.next += 1;
                moved.notify_all();
            }
            if turn.is_over {
                return;
            }
        }
    };
    thread::scope(|scope| {
        for _ in 1..workers {
            // Where no thread can be had, the others do the work.
            let _ = thread::Builder::new().spawn_scoped(scope, work);
        }
        work();
    });
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
