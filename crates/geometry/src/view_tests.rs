use project::{End, Face};

use crate::sample::filled;
use crate::shape::ring_area;
use crate::{Model, Of, View, ViewOutline, elevation, extent, model};

fn check(view: View) -> (Model, Vec<ViewOutline>) {
    let catalogue = catalogue::sample();
    let model = model(&filled(2, 90, &catalogue), &catalogue).expect("the build's parts are in the catalogue");
    let seen = elevation(&model, view);
    assert_eq!(seen.len(), model.solids.len());
    (model, seen)
}

#[test]
fn each_view_has_the_size_of_the_cabinet_and_its_pad() {
    for view in [View::Front, View::Rear, View::Left, View::Right, View::Plan] {
        let (model, seen) = check(view);
        let size = model.bounds(|_| true).expect("there are solids").size();
        let (width, height) = match view {
            View::Front | View::Rear => (size.x, size.z),
            View::Left | View::Right => (size.y, size.z),
            View::Plan => (size.x, size.y),
        };
        let (low, high) = extent(&seen).expect("there are outlines");
        assert!((high[0] - low[0] - width).abs() < 1e-9 && (high[1] - low[1] - height).abs() < 1e-9, "{view:?}");
        assert!(seen.iter().all(|one| ring_area(&one.outline.outer) > 0.0), "{view:?}");
        assert!(seen.iter().flat_map(|one| &one.outline.holes).all(|hole| ring_area(hole) < 0.0), "{view:?}");
        assert!(seen.windows(2).all(|pair| pair[0].nearness <= pair[1].nearness), "{view:?}");
    }
}

#[test]
fn the_first_bay_is_left_from_the_front_and_right_from_the_rear() {
    for (view, left) in [(View::Front, true), (View::Rear, false)] {
        let (_, seen) = check(view);
        let doors = |end| Of::Door { bay: 0, end };
        let end = if left { End::Front } else { End::Rear };
        let leaf = seen.iter().find(|one| one.of == doors(end)).expect("there is one");
        assert_eq!(leaf.outline.outer.iter().all(|point| point[0] < 0.0), left, "{view:?}");
        assert!(!leaf.hidden, "{view:?}");
    }
}

#[test]
fn devices_show_at_their_own_end_and_hide_at_the_other() {
    for (view, seen_end) in [(View::Front, End::Front), (View::Rear, End::Rear)] {
        let (model, seen) = check(view);
        let mut both = [0, 0];
        for one in &seen {
            if let Of::Device(id) = one.of {
                let end = model.device(id).and_then(|placed| placed.end);
                assert_eq!(one.hidden, end != Some(seen_end), "{view:?} {:?}", one.of);
                both[usize::from(one.hidden)] += 1;
            }
        }
        assert!(both[0] > 0 && both[1] > 0, "{view:?}: {both:?}");
    }
}

#[test]
fn the_face_turned_away_is_hidden_and_the_inside_is_from_the_side() {
    let (_, seen) = check(View::Left);
    for one in seen {
        match one.of {
            Of::Body(face) => assert_eq!(one.hidden, face == Face::Right),
            Of::Device(_) | Of::Rail { .. } | Of::Insulation(_) => assert!(one.hidden, "{:?}", one.of),
            Of::Shield | Of::Plinth => assert!(!one.hidden),
            _ => {}
        }
    }
}
