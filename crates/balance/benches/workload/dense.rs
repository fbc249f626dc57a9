//! A dough of the workload as a dense square system in floating point: what a general solver is given.

use super::{Dough, RaisedBy, Stage};

/// `matrix · weights = right side`; the matrix row by row.
pub struct System {
    pub size: usize,
    pub matrix: Vec<f64>,
    pub right: Vec<f64>,
}

impl System {
    fn row(&mut self, terms: &[(usize, f64)], right: f64) {
        let start = self.matrix.len();
        self.matrix.resize(start + self.size, 0.0);
        for (column, factor) in terms {
            self.matrix[start + column] += factor;
        }
        self.right.push(right);
    }
}

/// The system of a dough's weights, in the order of [`super::closed::weights`].
pub fn system(dough: &Dough) -> System {
    let lines = |stage: &Stage| 3 + stage.build.as_ref().map_or(0, |_| 3);
    let ahead: usize = dough.stages.iter().map(lines).sum();
    let size = ahead + dough.flours.len() + 3;
    let mut system =
        System { size, matrix: Vec::with_capacity(size * size), right: Vec::with_capacity(size) };
    let share = |per_mille: u16| f64::from(per_mille) / 1000.0;
    let total = 1.0 + share(dough.water) + share(dough.salt) + share(dough.yeast);
    let flour = f64::from(dough.make) * 1000.0 / total;
    let strong = flour * f64::from(dough.flours[0]) / 100.0;
    let (mut flours, mut waters, mut yeasts) = (vec![(ahead, 1.0)], Vec::new(), Vec::new());
    let mut first = 0;
    for stage in &dough.stages {
        let mut inner = None;
        for stage in stage.build.as_deref().into_iter().chain([stage]) {
            let (own, water, raised) = (first, first + 1, first + 2);
            system.row(&[(water, 1.0), (own, -f64::from(stage.water) / 100.0)], 0.0);
            let mut content = vec![(own, 1.0)];
            flours.push((own, 1.0));
            waters.push((water, 1.0));
            match stage.raised_by {
                RaisedBy::Yeast(yeast) => {
                    system.row(&[(raised, 1.0), (own, -share(yeast))], 0.0);
                    yeasts.push((raised, 1.0));
                }
                RaisedBy::Seed(seed) => {
                    system.row(&[(raised, 1.0), (own, -f64::from(seed) / 100.0)], 0.0);
                    content.push((raised, 0.5));
                    flours.push((raised, 0.5));
                    waters.push((raised, 0.5));
                }
            }
            let takes = strong * share(stage.takes);
            system.row(&content, takes - inner.unwrap_or(0.0));
            inner = Some(takes);
            first += 3;
        }
    }
    system.row(&flours, strong);
    for (index, part) in dough.flours.iter().enumerate().skip(1) {
        system.row(&[(ahead + index, 1.0)], flour * f64::from(*part) / 100.0);
    }
    let last = ahead + dough.flours.len();
    waters.push((last, 1.0));
    system.row(&waters, flour * share(dough.water));
    system.row(&[(last + 1, 1.0)], flour * share(dough.salt));
    yeasts.push((last + 2, 1.0));
    system.row(&yeasts, flour * share(dough.yeast));
    system
}
