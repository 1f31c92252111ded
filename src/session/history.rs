//! What was set before, so that every act can be taken back and done again.

/// Earlier and later states of something that is cheap to clone: all of them are kept.
#[derive(Debug)]
pub struct History<T> {
    past: Vec<T>,
    future: Vec<T>,
}

impl<T> Default for History<T> {
    fn default() -> Self {
        Self {
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}

impl<T> History<T> {
    /// Keeps the state as it was before an act. What had been taken back is gone for good.
    pub fn keep(&mut self, before: T) {
        self.future.clear();
        self.past.push(before);
    }

    /// Whether there is an act to take back.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is an act to do again.
    #[must_use]
    pub const fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// The state before the last act, in exchange for the present one.
    pub fn undo(&mut self, present: T) -> Option<T> {
        let earlier = self.past.pop()?;
        self.future.push(present);
        Some(earlier)
    }

    /// The state after the act that was taken back last, in exchange for the present one.
    pub fn redo(&mut self, present: T) -> Option<T> {
        let later = self.future.pop()?;
        self.past.push(present);
        Some(later)
    }

    /// Every state that is kept.
    pub fn states_mut(&mut self) -> impl Iterator<Item = &mut T> {
        self.past.iter_mut().chain(&mut self.future)
    }

    /// Forgets everything.
    pub fn clear(&mut self) {
        *self = Self::default();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn acts_are_taken_back_and_done_again_in_order() {
        let mut history = History::default();
        history.keep(1);
        history.keep(2);
        assert!(history.can_undo() && !history.can_redo());
        assert_eq!(history.undo(3), Some(2));
        assert_eq!(history.undo(2), Some(1));
        assert_eq!(history.undo(1), None);
        assert_eq!(history.redo(1), Some(2));
        assert_eq!(history.redo(2), Some(3));
        assert_eq!(history.redo(3), None);
    }

    #[test]
    fn a_new_act_ends_what_could_be_done_again() {
        let mut history = History::default();
        history.keep(1);
        assert_eq!(history.undo(2), Some(1));
        history.keep(1);
        assert!(!history.can_redo());
        assert_eq!(history.undo(7), Some(1));
    }

    #[test]
    fn no_act_is_forgotten() {
        let mut history = History::default();
        for state in 0..10_000 {
            history.keep(state);
        }
        let mut oldest = 10_000;
        while let Some(earlier) = history.undo(oldest) {
            assert_eq!(earlier, oldest - 1);
            oldest = earlier;
        }
        assert_eq!(oldest, 0);
    }
}
