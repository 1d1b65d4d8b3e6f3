//! The months at the sites of the samples: round figures of ours for such a climate, measured nowhere.

use units::{Celsius, Kelvins};

use crate::{Month, MonthlyMeans};

fn months(air: [f64; 12], range: [f64; 12], clearness: [f64; 12], wind: [f64; 12]) -> Option<Box<MonthlyMeans>> {
    let month = |at: usize| Month {
        air: Celsius(air[at]),
        daily_range: Kelvins(range[at]),
        clearness: clearness[at],
        wind: wind[at],
    };
    Some(Box::new(MonthlyMeans(std::array::from_fn(month))))
}

/// A hot desert at the sea's height: clear, calm, hot nights.
pub(super) fn desert() -> Option<Box<MonthlyMeans>> {
    months(
        [13.5, 15.5, 19.0, 22.5, 27.0, 32.0, 35.0, 34.5, 31.5, 25.0, 18.0, 13.0],
        [14.0, 14.5, 15.5, 16.0, 16.5, 16.5, 13.5, 13.0, 14.0, 15.0, 14.5, 13.5],
        [0.84, 0.86, 0.9, 0.94, 0.95, 0.96, 0.88, 0.88, 0.92, 0.91, 0.88, 0.84],
        [2.8, 3.0, 3.2, 3.5, 3.4, 3.4, 3.9, 3.6, 2.9, 2.6, 2.7, 2.7],
    )
}

/// A warm coast: damp, windy, small difference between day and night.
pub(super) fn coast() -> Option<Box<MonthlyMeans>> {
    months(
        [13.0, 14.5, 17.5, 21.5, 25.5, 28.5, 29.5, 29.5, 27.5, 23.5, 18.5, 14.5],
        [6.5, 6.0, 5.5, 5.0, 5.0, 5.0, 5.5, 5.5, 5.5, 6.0, 6.5, 6.5],
        [0.56, 0.6, 0.64, 0.68, 0.74, 0.79, 0.79, 0.77, 0.74, 0.74, 0.65, 0.56],
        [5.2, 5.2, 5.4, 5.5, 5.2, 4.8, 4.2, 4.0, 4.5, 4.7, 5.1, 5.0],
    )
}

/// A ridge above a cold valley: thin dry air, snow, thunderstorms on summer afternoons.
pub(super) fn mountain() -> Option<Box<MonthlyMeans>> {
    months(
        [-11.5, -9.0, -3.5, 2.0, 7.5, 12.5, 15.5, 14.5, 10.5, 4.5, -3.5, -10.5],
        [14.0, 14.5, 14.0, 14.5, 15.5, 16.5, 15.5, 15.0, 15.5, 15.0, 13.5, 13.5],
        [0.72, 0.73, 0.74, 0.74, 0.76, 0.82, 0.74, 0.73, 0.8, 0.81, 0.74, 0.7],
        [4.5, 4.6, 4.9, 5.2, 5.0, 4.7, 4.0, 3.8, 4.0, 4.3, 4.5, 4.4],
    )
}
