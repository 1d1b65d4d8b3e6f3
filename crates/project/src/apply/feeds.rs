//! Feeds that the user chooses himself.

use super::{Refusal, first_refused};
use crate::ranges::feed_faults;
use crate::{Build, ChosenFeed, ItemId};

/// Chooses a feed in place of the one before. Whether voltage and place fit is a question for the checks.
pub(super) fn choose(build: &mut Build, chosen: &ChosenFeed) -> Result<(), Refusal> {
    first_refused(feed_faults(build, chosen, ""))?;
    build.feeds.retain(|feed| feed.load != chosen.load);
    build.feeds.push(*chosen);
    Ok(())
}

/// Forgets what was chosen for something that is no longer there, or from it.
pub(super) fn forget(build: &mut Build, id: ItemId) {
    build.feeds.retain(|feed| feed.load.item() != id);
    for feed in &mut build.feeds {
        if feed.from == Some(id) {
            (feed.from, feed.position) = (None, None);
        }
    }
    build.feeds.retain(|feed| feed.from.is_some() || feed.position.is_some());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{part, with};
    use crate::{Edit, Fed, Place, apply, new_project};

    fn check(edits: &[Edit], feeds: usize) {
        let catalogue = catalogue::sample();
        let add = |id: &str| Edit::AddDevice { what: part(id), at: Place::Unplaced };
        let project = with(new_project(&catalogue), &catalogue, &[add("centre-load-12"), add("server-edge-1")]);
        let project = with(project, &catalogue, edits);
        assert_eq!(project.build.feeds.len(), feeds, "{edits:?}");
    }

    fn feed(load: u32, from: Option<u32>, position: Option<u32>) -> ChosenFeed {
        ChosenFeed { load: Fed::Device(ItemId(load)), from: from.map(ItemId), position }
    }

    #[test]
    fn a_feed_is_chosen_once_and_freed() {
        let (one, other) = (feed(2, Some(1), Some(4)), feed(2, Some(1), Some(6)));
        check(&[Edit::ChooseFeed(one), Edit::ChooseFeed(other)], 1);
        check(&[Edit::ChooseFeed(one), Edit::FreeFeed(Fed::Device(ItemId(2)))], 0);
    }

    #[test]
    fn what_is_taken_out_takes_its_feeds_along() {
        let chosen = Edit::ChooseFeed(feed(2, Some(1), Some(4)));
        check(&[chosen.clone(), Edit::RemoveDevice(ItemId(2))], 0);
        check(&[chosen, Edit::RemoveDevice(ItemId(1))], 0);
    }

    #[test]
    fn a_feed_of_nothing_from_nothing_or_in_no_position_is_refused() {
        let catalogue = catalogue::sample();
        let add = Edit::AddDevice { what: part("centre-load-12"), at: Place::Unplaced };
        let project = with(new_project(&catalogue), &catalogue, &[add]);
        for wrong in [feed(9, Some(1), None), feed(1, Some(9), None), feed(1, Some(1), None), feed(1, None, Some(0))] {
            let mut tried = project.clone();
            assert!(apply(&mut tried, &Edit::ChooseFeed(wrong), &catalogue).is_err(), "{wrong:?}");
            assert_eq!(tried, project);
        }
    }
}
