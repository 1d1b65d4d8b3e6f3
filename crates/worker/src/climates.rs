//! The climate that runs are made in, prepared once for each site, front and weather.

use std::rc::Rc;

use climate::{CompactYear, WeatherYear};
use project::Brief;
use rules::course::PreparedClimate;

/// The climate that runs are made in.
#[derive(Default)]
pub(crate) struct Climates {
    /// Of a weather file; none with the brief's own.
    own: Option<WeatherYear>,
    prepared: Option<Rc<PreparedClimate>>,
}

impl Climates {
    /// Takes a weather file in the form it is kept in; with none, or one that cannot be read, the brief's own climate.
    pub(crate) fn take(&mut self, kept: Option<&str>) -> Result<(), Vec<String>> {
        self.forget();
        self.own = None;
        if let Some(kept) = kept {
            self.own = Some(unkept(kept)?);
        }
        Ok(())
    }

    /// Forgets what was prepared.
    pub(crate) fn forget(&mut self) {
        self.prepared = None;
    }

    /// The climate for this brief: what was prepared before, where it still suits.
    pub(crate) fn prepared(&mut self, brief: &Brief) -> Result<Rc<PreparedClimate>, String> {
        if let Some(prepared) = self.prepared.as_ref().filter(|prepared| prepared.suits(brief)) {
            return Ok(Rc::clone(prepared));
        }
        let fresh = PreparedClimate::of(brief, self.own.as_ref()).map_err(|problem| problem.to_string())?;
        Ok(Rc::clone(self.prepared.insert(Rc::new(fresh))))
    }
}

/// A year of weather in the form it is kept in.
pub(crate) fn kept(year: &WeatherYear) -> String {
    // Plain numbers and texts, which can always be written.
    serde_json::to_string(&CompactYear::from(year)).unwrap_or_default()
}

/// A year of weather out of the form it is kept in.
fn unkept(kept: &str) -> Result<WeatherYear, Vec<String>> {
    let compact: CompactYear = serde_json::from_str(kept).map_err(|wrong| vec![wrong.to_string()])?;
    WeatherYear::try_from(compact).map_err(|problems| problems.iter().map(ToString::to_string).collect())
}
