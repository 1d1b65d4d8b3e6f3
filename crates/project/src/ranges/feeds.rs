//! Whether a chosen feed names what is there.

use super::{Fault, join};
use crate::{Build, ChosenFeed, Fed};

/// Positions of the largest load centre there is, and of the largest distribution.
const MOST_POSITIONS: u32 = 200;

/// What of a feed is not there; whether it is a good one is for the checks to say.
pub(crate) fn feed_faults(build: &Build, feed: &ChosenFeed, at: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    let load = feed.load.item();
    let there = match feed.load {
        Fed::Device(id) | Fed::Second(id) => build.device(id).is_some(),
        Fed::Unit(id) => build.unit(id).is_some(),
    };
    if !there {
        let found = format!("number {}", load.0);
        faults.push(Fault::new(join(at, "load"), "Load", found, "a device or climate unit of the build"));
    }
    if let Some(from) = feed.from.filter(|from| *from == load || build.device(*from).is_none()) {
        let found = if from == load { "itself".to_owned() } else { format!("number {}", from.0) };
        faults.push(Fault::new(join(at, "from"), "Feed", found, "another device of the build"));
    }
    if let Some(position) = feed.position.filter(|position| !(1..=MOST_POSITIONS).contains(position)) {
        let allowed = format!("1 to {MOST_POSITIONS}");
        faults.push(Fault::new(join(at, "position"), "Position", position.to_string(), allowed));
    }
    faults
}

/// The faults of all feeds of a build. A load is fed once.
pub(super) fn all_feed_faults(build: &Build) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, feed) in build.feeds.iter().enumerate() {
        let at = format!("build.feeds[{index}]");
        faults.extend(feed_faults(build, feed, &at));
        if build.feeds[..index].iter().any(|before| before.load == feed.load) {
            let found = format!("number {} for the second time", feed.load.item().0);
            faults.push(Fault::new(format!("{at}.load"), "Load", found, "each input once"));
        }
    }
    faults
}
