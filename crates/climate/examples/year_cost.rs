//! What the sun of a year costs: `cargo run --release -p climate --example year_cost`.

use std::hint::black_box;
use std::time::Instant;

use climate::{ClearSky, Refraction, Site, SkyLight, SkyModel, YearClock, extraterrestrial, light_year, sun_year};
use units::Metres;

const RUNS: u32 = 200;

fn main() {
    let site = Site {
        latitude: 35.0,
        longitude: -117.0,
        elevation: Metres(560.0),
        utc_offset: -8.0,
        albedo: 0.2,
        horizon: vec![],
    };
    let clock = YearClock::typical(8760);
    let air = Refraction::usual(&site);
    let Some(suns) = sun_year(&site, &clock, air) else { return };
    // Clear and hazy days in turn, so that every branch of the sky models is walked.
    let light: Vec<SkyLight> = suns
        .enumerate()
        .filter_map(|(row, sun)| {
            let day = u32::try_from(row / 24).ok()?;
            let model = ClearSky::Ineichen { linke_turbidity: 2.0 + f64::from(day % 7) };
            model.light(sun.apparent_zenith, extraterrestrial(day + 1), site.elevation, air.pressure)
        })
        .collect();

    report("positions", || sun_year(&site, &clock, air).map(|suns| suns.map(|sun| sun.direction[2]).sum::<f64>()));
    for model in [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez] {
        let name = format!("positions and five faces, {model:?}");
        report(&name, || whole(&site, &clock, model, &light));
    }
    let hills = Site { horizon: vec![5.0; 36], ..site.clone() };
    report("the same behind hills", || whole(&hills, &clock, SkyModel::Perez, &light));
}

/// All the light of a year, W·h/m².
fn whole(site: &Site, clock: &YearClock, model: SkyModel, light: &[SkyLight]) -> Option<f64> {
    let year = light_year(site, clock, 180.0, model, light.iter().copied())?;
    Some(year.flat_map(|hour| hour.faces).map(|face| face.total()).sum())
}

/// Prints the middle of many runs.
fn report<T>(name: &str, run: impl Fn() -> T) {
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            black_box(run());
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{name}: {:.2} ms (fastest {:.2})", times[times.len() / 2], times[0]);
}
