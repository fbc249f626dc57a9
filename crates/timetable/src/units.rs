//! Which steps are placed together.

use crate::board::Unit;
use crate::grid::Grid;
use crate::tree::Tree;

/// The units of the work: each job, with the jobs that are made for it alone, such as the poolish of one dough.
///
/// A levain that several doughs take from is a unit of its own.
pub fn units(grid: &Grid, jobs: usize) -> Vec<Unit> {
    let mut users: Vec<Vec<usize>> = vec![Vec::new(); jobs];
    for wait in &grid.waits {
        let (maker, user) = (grid.steps[wait.after].job, grid.steps[wait.before].job);
        if maker != user && !users[maker].contains(&user) {
            users[maker].push(user);
        }
    }
    let mut leader: Vec<usize> = (0..jobs).collect();
    for (maker, users) in users.iter().enumerate() {
        if let [user] = users[..] {
            let (from, to) = (find(&leader, maker), find(&leader, user));
            leader[from] = to;
        }
    }
    let mut steps: Vec<Vec<usize>> = vec![Vec::new(); jobs];
    for (index, step) in grid.steps.iter().enumerate() {
        steps[find(&leader, step.job)].push(index);
    }
    let filled = steps.into_iter().filter(|steps| !steps.is_empty());
    filled.map(|steps| Unit { tree: Tree::spanning(grid, &steps), steps }).collect()
}

/// Who leads the group of a job.
fn find(leader: &[usize], mut job: usize) -> usize {
    while leader[job] != job {
        job = leader[job];
    }
    job
}
