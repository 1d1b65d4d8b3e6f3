//! The report of every whole project, to the last bit. `web/tests/same_bits.rs` compares the same digests in wasm.

use tests::kept;
use tests::projects::digests;

#[test]
fn reports_are_the_same_to_the_last_bit() {
    let fresh = digests(&catalogue::sample());
    assert!(!fresh.is_empty(), "no report");
    if let Err(changed) = kept("tests/projects/digests.txt", &fresh) {
        panic!("{changed}");
    }
}

#[test]
fn a_second_run_gives_the_same_bits() {
    let catalogue = catalogue::sample();
    assert_eq!(digests(&catalogue), digests(&catalogue));
}
