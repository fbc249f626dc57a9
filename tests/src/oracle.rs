//! The weights of a model, worked out without the tool.
//!
//! The method is another one on purpose. The tool thinks in what reaches the dough and eliminates sparsely, block by
//! block, in the order of the equations; here the unknowns are what is *weighed*, and all equations are solved at once
//! by Gauss and Jordan over quotients of big integers. The equations come from the model itself: no text, no
//! book, no equation of the tool is between.

mod equations;
mod gauss;
mod weights;

pub use weights::{StageWeights, Weights};

use crate::model::Model;

/// The weights of a model, as shares of its whole flour. They may be negative, where a stage needs more of something
/// than the dough has.
///
/// # Errors
/// Where the equations do not settle every weight; a model is made so that they do.
pub fn solve(model: &Model) -> Result<Weights, String> {
    let system = equations::system(model);
    let solution = gauss::solve(system.rows)?;
    Ok(weights::read(model, &system.unknowns, &solution))
}
