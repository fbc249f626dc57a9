//! The whole tool against published examples.
