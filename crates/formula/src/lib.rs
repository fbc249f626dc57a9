//! formula
