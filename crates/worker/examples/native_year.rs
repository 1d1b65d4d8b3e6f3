//! Runs a project through its year natively, as the page's worker does in wasm, and prints how long each run took as JSON:
//! `native_year FILE TIMES`. Part of `cargo xtask bench`.

use std::time::Instant;

use worker::{Desk, Order, Word};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut words = std::env::args().skip(1);
    let file = words.next().ok_or("which project?")?;
    let times = words.next().ok_or("how often?")?.parse()?;
    let project = std::fs::read_to_string(file)?;
    let began = Instant::now();
    let mut desk = Desk::default();
    let said = desk.take(Order::Measure { project, times }, || began.elapsed().as_secs_f64() * 1e3);
    match said {
        Some(Word::Measured { rooms, preparing, days, running }) => {
            println!(
                "{{\"rooms\": {rooms}, \"preparing\": {preparing:?}, \"days\": {days:?}, \"running\": {running:?}}}"
            );
            Ok(())
        }
        _ => Err("the desk measured nothing".into()),
    }
}
