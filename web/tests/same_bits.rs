//! The report of every whole project has the same bits here, in wasm, as natively.

use tests::projects::{DIGESTS, digests};
use wasm_bindgen_test::wasm_bindgen_test;

#[wasm_bindgen_test]
fn reports_are_the_same_to_the_last_bit_as_natively() {
    let fresh = digests(&catalogue::sample());
    let mut differing = 0;
    for (native, wasm) in DIGESTS.lines().zip(fresh.lines()) {
        if native != wasm {
            differing += 1;
            wasm_bindgen_test::console_log!("natively {native}, in wasm {wasm}");
        }
    }
    assert_eq!(differing, 0, "checks whose bits differ");
    assert_eq!(DIGESTS.lines().count(), fresh.lines().count());
    assert!(!fresh.is_empty(), "no report");
}
