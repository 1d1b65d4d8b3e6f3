//! Whether the graphics hardware keeps up. Where there is none, the processor draws the model, and is then missing where
//! badges and elevations are made.

/// Longer than this from the handing over of a frame to its end, ms, and the model cannot follow every edit: three frames
/// of a usual screen, as the end is looked for once in each.
const SLOW: f64 = 50.0;

/// How the last frame of the model went.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pace {
    since: Option<f64>,
    slow: bool,
}

impl Pace {
    /// A frame has been handed over at a time, ms. False when the one before is still being drawn, and is waited for.
    pub(super) fn begin(&mut self, now: f64) -> bool {
        let idle = self.since.is_none();
        self.since.get_or_insert(now);
        idle
    }

    /// Whether that frame is drawn has been looked up at a time, ms.
    pub(super) fn look(&mut self, drawn: bool, now: f64) {
        let Some(since) = self.since else { return };
        let slow = now - since > SLOW;
        if drawn {
            (self.since, self.slow) = (None, slow);
        } else {
            self.slow |= slow;
        }
    }

    /// Whether a frame takes so long that it is better drawn when edits rest.
    pub(super) const fn is_slow(self) -> bool {
        self.slow
    }
}

#[cfg(test)]
mod tests {
    use super::Pace;

    /// Frames that were handed over at the first time, and of which at each further time it was seen whether they were drawn.
    fn check(frames: &[(f64, &[(f64, bool)])], slow: bool) {
        let mut pace = Pace::default();
        for (from, looks) in frames {
            pace.begin(*from);
            for (now, drawn) in *looks {
                pace.look(*drawn, *now);
            }
        }
        assert_eq!(pace.is_slow(), slow, "{frames:?}");
    }

    #[test]
    fn a_frame_is_slow_after_three_of_the_screen_whether_it_is_drawn_or_not() {
        check(&[], false);
        check(&[(100.0, &[(117.0, false), (150.0, true)])], false);
        check(&[(100.0, &[(117.0, false), (150.5, true)])], true);
        check(&[(100.0, &[(150.5, false)])], true);
    }

    #[test]
    fn the_last_frame_alone_counts() {
        check(&[(0.0, &[(80.0, true)]), (100.0, &[(117.0, true)])], false);
        check(&[(0.0, &[(17.0, true)]), (100.0, &[(180.0, true)])], true);
    }

    #[test]
    fn a_frame_that_is_handed_over_before_the_last_is_drawn_does_not_hide_it() {
        let mut pace = Pace::default();
        assert!(pace.begin(0.0));
        assert!(!pace.begin(40.0));
        pace.look(true, 60.0);
        assert!(pace.is_slow());
        assert!(pace.begin(70.0));
    }
}
