//! The two axles and the two sides, and what there is of each.

use std::ops::{Index, IndexMut};

use crate::base::language::Word;

/// Front or rear axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The front axle.
    Front,
    /// The rear axle.
    Rear,
}

impl Side {
    /// Both, front first.
    pub const BOTH: [Side; 2] = [Side::Front, Side::Rear];

    /// Its left and right corner in the order LF, RF, LR, RR.
    pub fn corners(self) -> [usize; 2] {
        match self {
            Side::Front => [0, 1],
            Side::Rear => [2, 3],
        }
    }

    /// The other axle.
    #[must_use]
    pub fn other(self) -> Side {
        match self {
            Side::Front => Side::Rear,
            Side::Rear => Side::Front,
        }
    }

    /// The key in files and field paths.
    pub fn key(self) -> &'static str {
        match self {
            Side::Front => "front",
            Side::Rear => "rear",
        }
    }

    /// The word on screen.
    pub fn word(self) -> Word {
        match self {
            Side::Front => Word("Front"),
            Side::Rear => Word("Rear"),
        }
    }

    /// The same inside a sentence.
    pub fn word_inside(self) -> Word {
        match self {
            Side::Front => Word("front"),
            Side::Rear => Word("rear"),
        }
    }

    /// "Front axle".
    pub fn axle(self) -> Word {
        match self {
            Side::Front => Word("Front axle"),
            Side::Rear => Word("Rear axle"),
        }
    }
}

/// One value for each axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PerAxle<T> {
    /// Of the front axle.
    pub front: T,
    /// Of the rear axle.
    pub rear: T,
}

impl<T> PerAxle<T> {
    /// What `of` says of each axle, the front one first.
    pub fn each(mut of: impl FnMut(Side) -> T) -> Self {
        PerAxle { front: of(Side::Front), rear: of(Side::Rear) }
    }

    /// The same two, each passed through `f`.
    pub fn map<U>(self, mut f: impl FnMut(T) -> U) -> PerAxle<U> {
        PerAxle { front: f(self.front), rear: f(self.rear) }
    }

    /// Both, without taking them.
    pub fn as_ref(&self) -> PerAxle<&T> {
        PerAxle { front: &self.front, rear: &self.rear }
    }

    /// Front, rear.
    pub fn both(self) -> [T; 2] {
        [self.front, self.rear]
    }

    /// Front, rear, without taking them.
    pub fn iter(&self) -> std::array::IntoIter<&T, 2> {
        self.as_ref().into_iter()
    }
}

impl<T> IntoIterator for PerAxle<T> {
    type Item = T;
    type IntoIter = std::array::IntoIter<T, 2>;

    fn into_iter(self) -> Self::IntoIter {
        self.both().into_iter()
    }
}

impl<'a, T> IntoIterator for &'a PerAxle<T> {
    type Item = &'a T;
    type IntoIter = std::array::IntoIter<&'a T, 2>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<T> PerAxle<Option<T>> {
    /// Both values; `None` unless both are known.
    pub fn known(self) -> Option<PerAxle<T>> {
        Some(PerAxle { front: self.front?, rear: self.rear? })
    }
}

impl<T> From<[T; 2]> for PerAxle<T> {
    fn from([front, rear]: [T; 2]) -> Self {
        PerAxle { front, rear }
    }
}

impl<T> Index<Side> for PerAxle<T> {
    type Output = T;

    fn index(&self, side: Side) -> &T {
        match side {
            Side::Front => &self.front,
            Side::Rear => &self.rear,
        }
    }
}

impl<T> IndexMut<Side> for PerAxle<T> {
    fn index_mut(&mut self, side: Side) -> &mut T {
        match side {
            Side::Front => &mut self.front,
            Side::Rear => &mut self.rear,
        }
    }
}

/// One value for left and one for right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftRight<T> {
    /// Of the left side.
    pub left: T,
    /// Of the right side.
    pub right: T,
}

impl<T> LeftRight<T> {
    /// The same two, each passed through `f`.
    pub fn map<U>(self, mut f: impl FnMut(T) -> U) -> LeftRight<U> {
        LeftRight { left: f(self.left), right: f(self.right) }
    }

    /// Left, right.
    pub fn both(self) -> [T; 2] {
        [self.left, self.right]
    }
}

impl<T> From<[T; 2]> for LeftRight<T> {
    fn from([left, right]: [T; 2]) -> Self {
        LeftRight { left, right }
    }
}
