//! Effectiveness of exchangers against a scientific library (`reference/hx_effectiveness.csv`, ht 1.2.0).

use climate::convection::{Arrangement, effectiveness};

/// Name in the file, the arrangement, and how well it agrees: the exact series of a cross-flow differs from the closed form.
const ARRANGEMENTS: [(&str, Arrangement, f64); 6] = [
    ("counterflow", Arrangement::Counter, 1e-6),
    ("parallel", Arrangement::Parallel, 1e-6),
    ("crossflow approximate", Arrangement::CrossUnmixed, 1e-6),
    ("crossflow, mixed Cmin", Arrangement::CrossSmallMixed, 1e-6),
    ("crossflow, mixed Cmax", Arrangement::CrossGreatMixed, 1e-6),
    ("crossflow", Arrangement::CrossUnmixed, 0.02),
];

#[test]
fn exchangers_move_what_a_scientific_library_says() {
    let mut rows = [0; ARRANGEMENTS.len()];
    for line in include_str!("../reference/hx_effectiveness.csv").lines().skip(1) {
        // From the right, since a quoted name has a comma of its own.
        let cells: Vec<&str> = line.rsplitn(4, ',').collect();
        let number = |cell: usize| cells[cell].parse::<f64>().expect("a number");
        let name = cells[3].trim_matches('"');
        let which = ARRANGEMENTS.iter().position(|(known, ..)| *known == name).expect("a known arrangement");
        let (_, arrangement, within) = ARRANGEMENTS[which];
        let (ratio, expected) = (number(1), number(0));
        let found = effectiveness(arrangement, number(2), ratio).expect("inside the range");
        assert!((found - expected).abs() <= within, "{line}: {found}");
        rows[which] += 1;
    }
    assert!(rows.iter().all(|count| *count >= 20), "{rows:?}");
}
