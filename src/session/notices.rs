//! Messages to the person.

use std::time::{Duration, Instant};

/// At most this many messages stand at once; the oldest go first.
const MOST: usize = 3;
/// How long good news stands; trouble stands until it is dismissed.
const GOOD_NEWS_STANDS: Duration = Duration::from_secs(8);

/// How a message is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// It worked.
    Good,
    /// It did not.
    Trouble,
}

/// A message to the person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// How it is meant.
    pub tone: Tone,
    /// What happened, and what to do next.
    pub text: String,
    /// When it was said.
    since: Instant,
}

impl Notice {
    /// A message said now.
    #[must_use]
    pub fn new(tone: Tone, text: impl Into<String>) -> Self {
        Self {
            tone,
            text: text.into(),
            since: Instant::now(),
        }
    }
}

/// The messages that stand, the oldest first.
#[derive(Debug, Default)]
pub struct Notices(Vec<Notice>);

impl Notices {
    /// All of them.
    #[must_use]
    pub fn all(&self) -> &[Notice] {
        &self.0
    }

    /// One more.
    pub fn add(&mut self, notice: Notice) {
        self.0.push(notice);
        let surplus = self.0.len().saturating_sub(MOST);
        self.0.drain(..surplus);
    }

    /// Takes one away.
    pub fn dismiss(&mut self, index: usize) {
        if index < self.0.len() {
            self.0.remove(index);
        }
    }

    /// Takes away what went wrong before.
    pub fn forget_trouble(&mut self) {
        self.0.retain(|notice| notice.tone == Tone::Good);
    }

    /// Takes away good news that has stood long enough; says when the next will have.
    pub fn tidy(&mut self, now: Instant) -> Option<Duration> {
        let left = |notice: &Notice| {
            GOOD_NEWS_STANDS.saturating_sub(now.saturating_duration_since(notice.since))
        };
        self.0
            .retain(|notice| notice.tone == Tone::Trouble || !left(notice).is_zero());
        self.0
            .iter()
            .filter(|notice| notice.tone == Tone::Good)
            .map(left)
            .min()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_stand_at_most_and_the_newest_stay() {
        let mut notices = Notices::default();
        for text in ["one", "two", "three", "four"] {
            notices.add(Notice::new(Tone::Trouble, text));
        }
        notices.dismiss(7);
        let texts: Vec<_> = notices.all().iter().map(|n| n.text.as_str()).collect();
        assert_eq!(texts, ["two", "three", "four"]);
    }

    #[test]
    fn good_news_goes_by_itself_and_trouble_stays() {
        let mut notices = Notices::default();
        notices.add(Notice::new(Tone::Trouble, "not saved"));
        notices.add(Notice::new(Tone::Good, "saved"));
        let now = Instant::now();
        let left = notices.tidy(now).expect("good news stands");
        assert!(left > Duration::from_secs(7), "{left:?}");
        assert_eq!(notices.all().len(), 2);
        assert_eq!(notices.tidy(now + GOOD_NEWS_STANDS), None);
        assert_eq!(notices.all().len(), 1);
        assert_eq!(notices.all()[0].tone, Tone::Trouble);
    }
}
