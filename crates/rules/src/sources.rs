//! Where formulas and fixed values come from. Each source stands here once and is named in every result that rests on it.

use serde::Serialize;

/// How far a source has been confirmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Read in the document, or in a public reprint or open implementation of it.
    Read,
    /// Recalled; to be confirmed in the document before it is relied on.
    FromMemory,
    /// Common practice of the trade, without a source.
    CommonPractice,
    /// Follows from definitions, statics or geometry with every input stated.
    FirstPrinciples,
}

/// A source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// Author or document.
    pub document: &'static str,
    /// Edition or year.
    pub edition: &'static str,
    /// Place in it.
    pub place: &'static str,
    /// How far it has been confirmed.
    pub standing: Standing,
}

macro_rules! sources {
    ($($(#[$doc:meta])* $name:ident = $document:literal, $edition:literal, $place:literal, $standing:ident;)*) => {$(
        $(#[$doc])*
        pub static $name: Source =
            Source { document: $document, edition: $edition, place: $place, standing: Standing::$standing };
    )*};
}

sources! {
    /// Rack unit, panel height and width.
    EIA_310 = "EIA/ECA-310-E; IEC 60297-3-100", "2005; 2008", "panel and rail dimensions", Read;
    /// Statics and geometry.
    GEOMETRY = "geometry of the build", "", "all inputs stated", FirstPrinciples;
    /// Common practice.
    PRACTICE = "common practice", "", "no source", CommonPractice;
    /// The catalogue's own figures.
    CATALOGUE = "the loaded catalogue", "", "figures of its maker", Read;
    /// Statics.
    STATICS = "statics", "", "all inputs stated", FirstPrinciples;
    /// Heat balances and resistances in series.
    HEAT_BALANCE = "heat balance, resistances in series", "", "all inputs stated", FirstPrinciples;
    /// Effective cooling surface.
    IEC_60890 = "IEC TR 60890 (VDE 0660-507)", "edition to be confirmed", "surface factors b", FromMemory;
    /// Films of air on inner and outer surfaces.
    FILMS = "building practice (ASHRAE Fundamentals)", "edition to be confirmed", "surface films", FromMemory;
    /// The flat sun figure.
    FLAT_SUN = "North American outside-plant practice, Telcordia GR-487", "edition to be confirmed", "70 W/ft² on each sunlit face", FromMemory;
    /// The standard atmosphere.
    STANDARD_ATMOSPHERE = "US Standard Atmosphere; ISO 2533", "1976; 1975", "below 11 km", Read;
    /// Sling angles.
    ASME_B30_9 = "ASME B30.9", "edition to be confirmed", "sling angles; legs that share a rigid load", FromMemory;
    /// Legs near the vertical.
    CFR_1910_184 = "29 CFR 1910.184", "", "(b), angle of loading", Read;
    /// Shoulder eye bolts under angled load.
    RIGGING_TABLES = "rigging trade tables; confirm in ASME B30.26 and B18.15", "", "eye bolts under angled load", FromMemory;
    /// Panel and opening of 23-inch rails, which EIA-310 does not list.
    TELEPHONE_RAILS = "telephone-industry practice", "", "23 in panel and clear opening", FromMemory;
    /// Smallest bend of a cable at rest.
    CABLE_BEND = "TIA-568; ICEA", "edition to be confirmed", "10 × diameter at rest; four-pair copper 4 ×", FromMemory;
    /// A run over a day or a year.
    STEPPED_BALANCE = "heat balance of air and mass, stepped through time", "", "all inputs stated", FirstPrinciples;
    /// The weather of the year.
    WEATHER = "the weather year of the run", "", "named in the working, with what was corrected", Read;
    /// Where the sun stands.
    SUN_POSITION = "Reda and Andreas, Solar position algorithm, NREL/TP-560-34302", "2008", "position of the sun", Read;
    /// Light of the sky on inclined faces.
    SKY_LIGHT = "Perez et al., Solar Energy 44 (5)", "1990", "light of the sky on inclined faces, set for all sites", Read;
    /// Light under a clear sky.
    CLEAR_SKY = "Ineichen and Perez, Solar Energy 73 (3)", "2002", "light under a clear sky", Read;
    /// Daily cycles of hot and cold climates.
    DAILY_CYCLES = "MIL-HDBK-310; AR 70-38", "edition in force to be confirmed", "daily cycles A1, A2, C1, C2; C3 from memory", FromMemory;
    /// Natural films of air.
    NATURAL_FILMS = "Churchill and Chu; McAdams, Heat Transmission", "1975; 3rd", "natural films, upright and lying", Read;
    /// Films of wind, and gaps.
    WIND_FILMS = "VDI Heat Atlas, plates in parallel flow and closed gaps", "edition to be confirmed", "read in an open implementation", Read;
    /// How warm the sky is.
    SKY_WARMTH = "Berdahl and Martin; Walton", "1984; 1983", "long-wave radiation of the sky", FromMemory;
    /// Air that flows through the gap behind a shield.
    SHIELD_GAP = "ISO 15099", "2003", "ventilated gaps", FromMemory;
    /// Air that changes places through a doorway.
    DOORWAY = "Brown and Solvason, as in building simulation", "1962", "flow through a doorway", FromMemory;
    /// How warmth ages a lead battery.
    HALVED_LIFE = "Arrhenius' law as makers of lead batteries apply it", "", "life halves for every 10 K above 25 °C; some take 8 K", FromMemory;
    /// Iron phosphate below freezing.
    LITHIUM_FROST = "makers of iron phosphate batteries", "", "no charging below 0 °C", FromMemory;
    /// Sizing of lead batteries.
    IEEE_485 = "IEEE 485", "2020; edition to be confirmed", "worksheet by sections; cell size correction, Table 1", FromMemory;
    /// How a current shortens a discharge.
    PEUKERT = "Peukert's law, as widely published", "1897", "exponents 1.10 to 1.25 of valve-regulated lead", FromMemory;
    /// Voltages, curves and shares of cells.
    CELLS = "makers of lead, iron phosphate and nickel-cadmium cells", "as of 2025", "voltages, curves, capacity in cold, charging", FromMemory;
    /// Hydrogen of batteries.
    IEC_62485_2 = "IEC 62485-2 (EN 50272-2 before)", "2010", "air flow and openings; gas of lead cells, in public pages", Read;
    /// Voltage at telecommunication equipment.
    EN_300_132_2 = "ETSI EN 300 132-2", "edition to be confirmed", "−40.5 to −57.0 V at the input", FromMemory;
    /// Energy from which a fire code asks for more.
    FIRE_CODE = "International Fire Code; NFPA 855", "2021, 2024; 2020, 2023", "thresholds; how far each is confirmed stands in the working", Read;
    /// Continuous loads, heating beside cooling, outlets.
    CODE_LOADS = "NFPA 70, National Electrical Code", "2017, 2020, 2023", "210.20, 215.2, 215.3: continuous loads 125 % (read in reprints); 220.60; 220.14(I)", FromMemory;
    /// Standard ratings and the next one up.
    CODE_BREAKERS = "NFPA 70, National Electrical Code", "2017, 2020, 2023", "240.4(B); 240.6(A): standard ratings (read in reprints)", FromMemory;
    /// Ampacity of conductors.
    CODE_CONDUCTORS = "NFPA 70, National Electrical Code", "2017, 2020, 2023", "110.14(C), 240.4(D), Tables 310.16 and 310.15, as the edition numbers them; some rows read in reprints", FromMemory;
    /// Voltage lost, as the code recommends.
    CODE_DROP = "NFPA 70, National Electrical Code", "2017, 2020, 2023", "informational notes to 210.19 and 215.2: recommendations; Chapter 9 Table 8", FromMemory;
    /// What one person lifts.
    NIOSH_94_110 = "NIOSH 94-110, Applications Manual for the Revised Lifting Equation", "1994", "load constant 23 kg (51 lb)", Read;
    /// The electrical code; the working names the place in its edition, and which rows were read in a public reprint.
    NFPA_70 = "NFPA 70, National Electrical Code", "2017, 2020 or 2023, as the brief says", "tables of assets/codes/nfpa-70.toml, named in the working", FromMemory;
    /// Outlets outdoors where the supply is that of Europe.
    IEC_60364_4_41 = "IEC 60364-4-41", "edition to be confirmed", "411.3.3, outlets outdoors up to 32 A", FromMemory;
    /// Contacts of cords and inlets.
    CONFIGURATIONS = "NEMA WD 6; IEC 60309-2; locking connectors of the trade", "edition to be confirmed", "configurations of plugs and inlets", FromMemory;
    /// Knock-outs and threads of conduit fittings.
    KNOCK_OUTS = "UL 514B; NEMA OS 1; ASME B1.20.1", "edition to be confirmed", "knock-out diameters; outside diameters of pipe threads", FromMemory;
}
