//! What is shared between panels, compared by its identity.

use std::ops::Deref;
use std::rc::Rc;

/// A value that many hold and nobody changes. Two of them are equal where they are the same one, so
/// that comparing costs nothing, however large the value is.
#[derive(Debug, Default)]
pub struct Shared<T>(Rc<T>);

impl<T> Shared<T> {
    /// Shares a value.
    pub fn new(value: T) -> Self {
        Self(Rc::new(value))
    }
}

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> From<Rc<T>> for Shared<T> {
    fn from(value: Rc<T>) -> Self {
        Self(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_same_one_is_equal() {
        let one = Shared::new(f64::NAN);
        assert!(one == one.clone());
        assert!(one != Shared::new(f64::NAN));
        assert!(Shared::new(1) != Shared::new(1));
    }
}
