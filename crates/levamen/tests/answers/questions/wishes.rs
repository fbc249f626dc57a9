//! What a dough should be instead of what its file says.

use levamen::{Extreme, Wishes};

use crate::question::Question;

/// What is asked of a dough as it should be.
pub trait Wishing {
    fn wishes(&mut self) -> &mut Wishes;
}

impl<R: Wishing> Question<R> {
    pub fn want(self, figure: &str) -> Self {
        self.with("want", figure, |request| request.wishes().want.push(figure.to_owned()))
    }

    pub fn free(self, figure: &str) -> Self {
        self.with("free", figure, |request| request.wishes().free.push(figure.to_owned()))
    }

    pub fn most(self, figure: &str) -> Self {
        self.extreme("most", figure, true)
    }

    pub fn least(self, figure: &str) -> Self {
        self.extreme("least", figure, false)
    }

    fn extreme(self, option: &str, figure: &str, most: bool) -> Self {
        let extreme = Extreme { figure: figure.to_owned(), most };
        self.with(option, figure, |request| request.wishes().extreme = Some(extreme))
    }
}
