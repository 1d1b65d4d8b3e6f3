//! Films, air gaps and long-wave exchange against published values (`published/films.toml`) and scientific libraries
//! (`reference/`: ht 1.2.0 for the correlations, CoolProp 8.0.0 for the properties of dry air).
//!
//! Not held against ours: T05-12…15 (other correlations for cubes, uniform flux, oven sides) and T05-17 (a smooth plate that
//! turns turbulent at Re = 5·10⁵: Nu 1306 where a plate in disturbed air has 1985).

use climate::convection::{
    Gas, dew_point, exchange, gap_film, horizontal_film, horizontal_gap, horizontal_helped, horizontal_hindered,
    laminar_plate, linear, mixed_plate, plate_film, turbulent_plate, vertical_film, vertical_gap, vertical_plate,
};
use tests::path;
use tests::published::{number, rows};
use toml::Table;
use units::Celsius;

/// A file of reference values: the names of its columns and its rows of numbers.
struct Reference {
    names: Vec<String>,
    rows: Vec<Vec<f64>>,
}

impl Reference {
    fn read(file: &str, least: usize) -> Self {
        let text = std::fs::read_to_string(path(&format!("tests/reference/{file}"))).expect("the file is there");
        let mut lines = text.lines();
        let names = lines.next().expect("a head").split(',').map(str::to_owned).collect();
        let number = |cell: &str| cell.parse().expect("a number");
        let rows: Vec<Vec<f64>> = lines.map(|line| line.split(',').map(number).collect()).collect();
        assert!(rows.len() >= least, "{file}: only {} rows", rows.len());
        Self { names, rows }
    }

    fn column(&self, name: &str) -> usize {
        self.names.iter().position(|found| found == name).unwrap_or_else(|| panic!("no column {name}"))
    }

    /// Runs over the rows with some columns of each.
    fn each<const N: usize>(&self, names: [&str; N], mut of: impl FnMut([f64; N])) {
        let columns = names.map(|name| self.column(name));
        for row in &self.rows {
            of(columns.map(|column| row[column]));
        }
    }
}

/// Agrees within a share of what is expected.
#[track_caller]
fn check(what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within * expected.abs(), "{what}: {found} instead of {expected}");
}

fn published(kind: &str) -> Vec<Table> {
    rows(include_str!("../published/films.toml"), kind)
}

fn named(row: &Table) -> String {
    format!("{} ({})", row["id"], row["source"])
}

#[test]
fn air_has_the_properties_of_a_scientific_library() {
    let reference = Reference::read("air_properties.csv", 50);
    let names = ["T_c", "P_pa", "rho_kg_m3", "mu_pa_s", "k_w_mk", "Pr", "nu_m2_s", "alpha_m2_s"];
    reference.each(names, |[t, p, rho, mu, k, pr, nu, alpha]| {
        let air = Gas::at(Celsius(t), p).expect("there is air");
        check("density", air.density, rho, 3e-3);
        check("viscosity", air.viscosity, mu, 3e-3);
        check("conductivity", air.conductivity, k, 3e-3);
        check("Prandtl", air.prandtl, pr, 3e-3);
        check("kinematic viscosity", air.kinematic_viscosity(), nu, 3e-3);
        check("diffusivity", air.diffusivity(), alpha, 3e-3);
    });
}

#[test]
fn upright_plates_have_the_film_of_a_scientific_library() {
    let reference = Reference::read("natural_convection_vertical.csv", 100);
    let names = ["T_inf_c", "P_pa", "L_m", "dT_k", "Ra", "Pr", "Nu", "h_w_m2k"];
    reference.each(names, |[t, p, height, difference, ra, pr, nu, h]| {
        check("Nu", vertical_plate(ra, pr), nu, 1e-6);
        check("h", vertical_film(Celsius(t), p, difference, height).expect("there is air"), h, 5e-3);
    });
}

#[test]
fn lying_plates_have_the_film_of_a_scientific_library() {
    let reference = Reference::read("natural_convection_horizontal.csv", 70);
    let names = [
        "T_inf_c",
        "P_pa",
        "Lc_m",
        "dT_k",
        "Ra",
        "Nu_mcadams_assisted",
        "Nu_mcadams_stable",
        "h_mcadams_assisted",
        "h_mcadams_stable",
    ];
    let mut compared = 0;
    reference.each(names, |[t, p, length, difference, ra, helped, hindered, h_helped, h_hindered]| {
        check("Nu helped", horizontal_helped(ra), helped, 1e-6);
        check("Nu hindered", horizontal_hindered(ra), hindered, 1e-6);
        let film = |up: bool| horizontal_film(Celsius(t), p, difference, length, up).expect("there is air");
        // Where Ra lies so close to 10⁷ that the jump of 6 % between the two formulas may fall on either side.
        if (ra / 1e7 - 1.0).abs() > 0.03 {
            compared += 1;
            let up = difference > 0.0;
            check("h helped", film(up), h_helped, 5e-3);
            check("h hindered", film(!up), h_hindered, 5e-3);
        }
    });
    assert!(compared > 60, "only {compared} rows compared");
}

#[test]
fn wind_makes_the_film_of_a_scientific_library() {
    let reference = Reference::read("forced_convection_plate.csv", 40);
    let names = [
        "T_inf_c",
        "P_pa",
        "L_m",
        "U_m_s",
        "Re",
        "Pr",
        "Nu_laminar_baehr",
        "Nu_turbulent_schlichting",
        "Nu_mixed_baehr_schlichting",
        "h_mixed",
    ];
    reference.each(names, |[t, p, length, wind, re, pr, laminar, turbulent, mixed, h]| {
        check("Nu laminar", laminar_plate(re, pr), laminar, 1e-6);
        check("Nu turbulent", turbulent_plate(re, pr), turbulent, 1e-6);
        check("Nu mixed", mixed_plate(re, pr), mixed, 1e-6);
        check("h", plate_film(Celsius(t), p, wind, length).expect("there is air"), h, 5e-3);
    });
}

#[test]
fn air_gaps_have_the_film_of_a_scientific_library() {
    let reference = Reference::read("air_gap.csv", 15);
    let names = [
        "T_mean_c",
        "P_pa",
        "gap_m",
        "height_m",
        "dT_k",
        "Pr",
        "Ra",
        "Nu_vertical_thess",
        "h_vertical",
        "Nu_horizontal_hot_below_hollands",
        "h_horizontal_hot_below",
    ];
    reference.each(names, |[t, p, width, height, difference, pr, ra, upright, h_upright, lying, h_lying]| {
        check("Nu upright", vertical_gap(ra, pr, height / width), upright, 1e-6);
        check("Nu lying", horizontal_gap(ra, pr), lying, 1e-6);
        let film = |height| gap_film(Celsius(t), p, difference, width, height).expect("there is air");
        if upright >= 1.0 {
            check("h upright", film(Some(height)), h_upright, 1e-2);
        }
        check("h lying", film(None), h_lying, 1e-2);
    });
}

#[test]
fn surfaces_radiate_as_in_a_scientific_library() {
    let reference = Reference::read("radiation_exchange.csv", 24);
    let names = ["emissivity", "T_surface_c", "T_surround_c", "q_w_m2", "h_rad_w_m2k"];
    reference.each(names, |[emissivity, surface, surroundings, flux, h]| {
        check("flux", exchange(emissivity, surface, surroundings), flux, 2e-6);
        // The linear form at the mean temperature: within 1 % over differences of 60 K.
        check("film", emissivity * linear((surface + surroundings) / 2.0), h, 1e-2);
    });
}

#[test]
fn natural_films_are_as_published() {
    for row in published("vertical") {
        let found = vertical_plate(number(&row, "rayleigh"), number(&row, "prandtl"));
        check(&named(&row), found, number(&row, "nusselt"), number(&row, "within"));
    }
    for row in published("horizontal") {
        let ra = number(&row, "rayleigh");
        check(&named(&row), horizontal_helped(ra), number(&row, "helped"), number(&row, "within"));
        check(&named(&row), horizontal_hindered(ra), number(&row, "hindered"), number(&row, "within"));
    }
    for row in published("duct") {
        let of = |field| number(&row, field);
        let ra = |length: f64| {
            let volume = length * length * length;
            9.8 * of("expansion_1_k") * of("difference_k") * volume / (of("viscosity_m2_s") * of("diffusivity_m2_s"))
        };
        // The book's half width: area over perimeter of a long strip.
        let (height, strip) = (of("height_m"), of("width_m") / 2.0);
        let film = |nusselt: f64, length: f64| nusselt * of("conductivity") / length;
        let side = film(vertical_plate(ra(height), of("prandtl")), height);
        check(&named(&row), side, of("side"), of("side_within"));
        check(&named(&row), film(horizontal_helped(ra(strip)), strip), of("top"), of("within"));
        check(&named(&row), film(horizontal_hindered(ra(strip)), strip), of("bottom"), of("within"));
    }
}

#[test]
fn a_laminar_film_is_as_published() {
    for row in published("plate") {
        let of = |field| number(&row, field);
        let re = of("wind_m_s") * of("length_m") / of("viscosity_m2_s");
        check(&named(&row), re, of("reynolds"), of("within"));
        let film = laminar_plate(re, of("prandtl")) * of("conductivity") / of("length_m");
        check(&named(&row), film, of("film"), of("within"));
    }
}

#[test]
fn plates_that_only_radiate_are_as_warm_as_published() {
    for row in published("exchange") {
        let of = |field| number(&row, field);
        let found = exchange(of("emissivity"), of("surface_c"), of("surroundings_c"));
        check(&named(&row), found, of("flux_w_m2"), of("within"));
    }
    for row in published("radiating") {
        let of = |field| number(&row, field);
        let taken_up = of("absorptance") * of("sun_w_m2");
        let (mut low, mut high) = (of("surroundings_c"), 300.0);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            let colder = exchange(of("emissivity"), middle, of("surroundings_c")) < taken_up;
            (low, high) = if colder { (middle, high) } else { (low, middle) };
        }
        let (expected, within) = (of("plate_c"), of("within_k"));
        assert!((low - expected).abs() <= within, "{}: {low} instead of {expected}", named(&row));
    }
}

#[test]
fn the_dew_point_is_as_published() {
    for row in published("dew_point") {
        let found = dew_point(number(&row, "air_c"), number(&row, "relative_humidity"));
        let (expected, within) = (number(&row, "dew_point_c"), number(&row, "within_k"));
        assert!((found - expected).abs() <= within, "{}: {found} instead of {expected}", named(&row));
    }
}
