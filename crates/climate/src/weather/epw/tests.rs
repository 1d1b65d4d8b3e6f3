use super::*;

/// A whole year of quiet weather as the form wants it.
fn quiet() -> Vec<String> {
    let mut lines: Vec<String> = [
        "LOCATION,Quiet Valley,-,XYZ,invented,999999,40.0,-75.0,-5.0,100.0",
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,an odd \" quotation mark",
        "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
    ]
    .map(str::to_owned)
    .to_vec();
    for (month, of_year) in crate::MONTHS.into_iter().enumerate() {
        for day in 1..=of_year.days {
            lines.extend((1..=24).map(|hour| row(month + 1, day, hour, "60")));
        }
    }
    lines
}

fn row(month: usize, day: usize, hour: usize, minute: &str) -> String {
    format!(
        "2019,{month},{day},{hour},{minute},?9?9,{}.5,3.0,50,99000,9999,9999,300,0,0,0,0,0,0,0,180,2.5,0,0,0,0,0,0,0,0,0,0,0,0,0",
        hour % 24
    )
}

/// Line number of a row in [`quiet`].
const FIRST: usize = 9;

fn read_lines(lines: &[String]) -> Result<WeatherYear, Vec<WeatherProblem>> {
    read_epw(lines.join("\n").as_bytes())
}

/// Changes the cells of one line.
fn set(lines: &mut [String], line: usize, column: usize, value: &str) {
    let mut cells: Vec<&str> = lines[line - 1].split(',').collect();
    cells[column] = value;
    lines[line - 1] = cells.join(",");
}

/// The file is read, and this is all that is noted.
fn check_notes(lines: &[String], expected: &[&str]) -> WeatherYear {
    match read_lines(lines) {
        Ok(year) => {
            let said: Vec<String> = year.notes.iter().map(ToString::to_string).collect();
            assert_eq!(said, expected);
            year
        }
        Err(problems) => panic!("{problems:#?}"),
    }
}

/// The file is refused, and these are all problems.
fn check_problems(lines: &[String], expected: &[&str]) {
    match read_lines(lines) {
        Ok(year) => panic!("read, with {:#?}", year.notes),
        Err(problems) => {
            let said: Vec<String> = problems.iter().map(ToString::to_string).collect();
            assert_eq!(said, expected);
        }
    }
}

#[test]
fn a_file_as_it_should_be_is_read_without_a_note() {
    let year = check_notes(&quiet(), &[]);
    assert_eq!((year.name.as_str(), year.sun_at, year.hours.len()), ("Quiet Valley, XYZ (invented)", 0.5, HOURS));
    assert_eq!((year.site.latitude, year.site.longitude, year.site.utc_offset), (40.0, -75.0, -5.0));
    let expected = Hour {
        dry_bulb: 15.5,
        wind: 2.5,
        relative_humidity: 0.5,
        pressure: 99_000.0,
        horizontal_infrared: Some(300.0),
        ..Hour::default()
    };
    assert_eq!(year.hours[24 + 14], expected);
}

#[test]
fn line_ends_and_encodings_of_other_machines_are_read() {
    let mut lines = quiet();
    lines[0] = lines[0].replace("Quiet", "Ruhiges Öd");
    let text = lines.join("\n");
    let plain = read_epw(text.as_bytes()).unwrap();
    assert!(plain.name.starts_with("Ruhiges Öd"));
    let latin: Vec<u8> = text.chars().map(|letter| u8::try_from(u32::from(letter)).unwrap()).collect();
    let little: Vec<u8> = [0xFF, 0xFE].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
    let big: Vec<u8> = [0xFE, 0xFF].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect();
    for (bytes, notes) in [
        (format!("\u{feff}{text}").into_bytes(), 0),
        (text.replace('\n', "\r\n").into_bytes(), 0),
        (text.replace('\n', "\r").into_bytes(), 0),
        (format!("\n{text}\n\n\u{1a}\n").into_bytes(), 0),
        (latin, 1),
        (little, 1),
        (big, 1),
    ] {
        let year = read_epw(&bytes).unwrap();
        assert_eq!(year.notes.len(), notes, "{:?}", year.notes);
        assert_eq!(WeatherYear { notes: vec![], ..year }, plain);
    }
}

#[test]
fn a_leap_day_is_left_out_and_said() {
    let mut lines = quiet();
    let march = FIRST - 1 + 59 * 24;
    lines.splice(march..march, (1..=24).map(|hour| row(2, 29, hour, "60")));
    assert_eq!(lines.len(), 8 + 8784);
    let text =
        "lines 1425 to 1448: 29 February is left out, though the header says there is none: the year has 365 days";
    check_notes(&lines, &[text]);
    lines[4] = lines[4].replace("No", "Yes");
    let year = check_notes(&lines, &["lines 1425 to 1448: 29 February is left out: the year has 365 days"]);
    assert_eq!(year.hours, read_lines(&quiet()).unwrap().hours);
}

#[test]
fn short_gaps_are_bridged_and_said() {
    let mut lines = quiet();
    for line in [FIRST + 10, FIRST + 11] {
        set(&mut lines, line, 6, "99.9");
    }
    set(&mut lines, FIRST + 40, 13, "9999");
    set(&mut lines, FIRST + 50, 21, "999");
    set(&mut lines, FIRST + 51, 12, "9999");
    let year = check_notes(
        &lines,
        &[
            "line 49, global horizontal: no value: read between its neighbours",
            "lines 19 to 20, dry bulb: no value: read between its neighbours",
            "line 59, wind speed: no value: read between its neighbours",
            "horizontal infrared: not in the file: left to a formula for the sky (1 h)",
        ],
    );
    assert_eq!((year.hours[10].dry_bulb, year.hours[11].dry_bulb), (11.5, 12.5));
    assert_eq!((year.hours[51].horizontal_infrared, year.hours[52].horizontal_infrared), (None, Some(300.0)));
    assert_eq!(year.notes[1].count, 2);
}

#[test]
fn long_gaps_are_refused() {
    let mut lines = quiet();
    for line in FIRST..FIRST + 7 {
        set(&mut lines, line, 6, "99.9");
    }
    for line in FIRST + 100..FIRST + 104 {
        set(&mut lines, line, 15, "9999");
    }
    check_problems(
        &lines,
        &[
            "lines 109 to 112, diffuse horizontal: found no value in 4 records; allowed: gaps of at most 3 h",
            "lines 9 to 15, dry bulb: found no value in 7 records; allowed: gaps of at most 6 h",
        ],
    );
}

#[test]
fn what_a_file_never_has_is_assumed_and_said() {
    let mut lines = quiet();
    for line in FIRST..FIRST + HOURS {
        set(&mut lines, line, 8, "999");
        set(&mut lines, line, 9, "999999");
    }
    let year = check_notes(
        &lines,
        &[
            "relative humidity: taken from dry bulb and dew point (8760 h)",
            "pressure: taken from the standard atmosphere at the site's elevation (8760 h)",
        ],
    );
    assert_eq!(year.hours[0].pressure, 100_130.0);
    // Hour 1: 1.5 °C with a dew point of 3 °C is full; hour 15: 15.5 °C.
    assert_eq!(year.hours[0].relative_humidity, 1.0);
    assert!((year.hours[14].relative_humidity - 0.43).abs() < 0.01);
}

#[test]
fn rows_in_the_wrong_order_are_sorted_and_said() {
    let mut lines = quiet();
    lines.swap(FIRST + 99, FIRST + 100);
    let year = check_notes(&lines, &["line 110: rows in the wrong order: sorted by date and hour"]);
    assert_eq!(year.hours, read_lines(&quiet()).unwrap().hours);
    let mut lines = quiet();
    lines[8..].rotate_left(181 * 24);
    let turned = "line 9: the file does not begin in January: put in the order of the year";
    let begins = "line 9: the rows do not begin on day 1 of month 1, as DATA PERIODS says: the rows are followed";
    assert_eq!(check_notes(&lines, &[turned, begins]).hours, year.hours);
    lines[7] = lines[7].replace(" 1/ 1,12/31", "7/1,6/30");
    assert_eq!(check_notes(&lines, &[turned]).hours, year.hours);
}

#[test]
fn few_missing_rows_are_bridged_and_many_are_named() {
    let mut lines = quiet();
    lines.drain(FIRST + 9..FIRST + 11);
    let said = "rows: missing: read between their neighbours (1 January, 10 to 11 h to 1 January, 11 to 12 h)";
    let sky = "horizontal infrared: not in the file: left to a formula for the sky (2 h)";
    let year = check_notes(&lines, &[said, sky]);
    assert_eq!(year.hours[10].dry_bulb, 11.5);
    lines.drain(3000..3010);
    check_problems(
        &lines,
        &[
            "rows: found 12 of 8760 missing: 1 January, 10 to 11 h to 1 January, 11 to 12 h; 5 May, 18 to 19 h to 6 May, 3 \
           to 4 h; allowed: at most 3 h in one place and 24 h in the year missing",
        ],
    );
}

#[test]
fn absurd_values_are_named_all_at_once() {
    let mut lines = quiet();
    set(&mut lines, 20, 6, "134");
    set(&mut lines, 21, 6, "-273");
    set(&mut lines, 30, 8, "warm");
    set(&mut lines, 40, 13, "5000");
    set(&mut lines, 50, 1, "13");
    set(&mut lines, 51, 2, "30.5");
    set(&mut lines, 9 + 31 * 24, 2, "30");
    lines[60] = lines[60].replace(",180,", ",180,1,");
    lines[0] = lines[0].replace("40.0", "400");
    check_problems(
        &lines,
        &[
            "line 1, LOCATION, latitude: found 400°; allowed: -90° to 90°",
            "lines 20 to 21, dry bulb: found 134 °C in the first of them; allowed: -90 to 60 °C, or 99.9 for none",
            "line 30, relative humidity: found \"warm\"; allowed: 0 to 110 %, or 999 for none",
            "line 40, global horizontal: found 5000 W/m²; allowed: -10 to 1600 W/m², or 9999 for none",
            "line 50, month: found \"13\"; allowed: a whole number, 1 to 12",
            "line 51, day: found \"30.5\"; allowed: a whole number, 1 to 31",
            "line 61, columns: found 36; allowed: 22 to 40, and as many as in the first row",
            "line 753, date: found day 30 of month 2; allowed: a day of that month",
        ],
    );
}

#[test]
fn a_time_that_stands_twice_is_refused() {
    let mut lines = quiet();
    let again = lines[FIRST].clone();
    lines.push(again);
    check_problems(
        &lines,
        &[
            "line 8769, time: found the time of line 10 again; allowed: each time once, as many in an hour as DATA PERIODS \
           says",
        ],
    );
}

#[test]
fn a_half_hour_is_averaged_and_the_minute_column_moves_the_sun() {
    let mut lines: Vec<String> = Vec::new();
    for line in quiet() {
        if line.starts_with("2019") {
            let mut early: Vec<&str> = line.split(',').collect();
            early[4] = "30";
            early[21] = "1.5";
            lines.push(early.join(","));
        }
        lines.push(line.replace("PERIODS,1,1,", "PERIODS,1,2,"));
    }
    let year = check_notes(&lines, &["line 8, DATA PERIODS: 2 records in an hour: the mean is taken"]);
    assert_eq!((year.hours[7].wind, year.hours[7].dry_bulb), (2.0, 8.5));

    let at = |minute: &str| -> Vec<String> { quiet().iter().map(|line| line.replace(",60,?9?9", minute)).collect() };
    let said = "rows: minute 15: values are taken to be those at 15 min past the hour, with the sun there";
    assert_eq!(check_notes(&at(",15,?9?9"), &[said]).sun_at, 0.25);
    assert_eq!(check_notes(&at(",0,?9?9"), &[]).sun_at, 0.5);
}

#[test]
fn hours_from_zero_and_years_that_change_are_said() {
    let mut lines = quiet();
    for line in FIRST..FIRST + HOURS {
        let hour = (line - FIRST) % 24;
        set(&mut lines, line, 3, &hour.to_string());
        set(&mut lines, line, 0, if line < 5000 { "1999" } else { "2004" });
    }
    check_notes(
        &lines,
        &[
            "rows: 2 years from 1999 to 2004: joined to one, as in a typical year",
            "rows: hours count from 0: hour 0 is taken as 0 to 1 h",
        ],
    );
    set(&mut lines, 100, 3, "24");
    let problems = read_lines(&lines).unwrap_err();
    assert_eq!(
        problems[0].to_string(),
        "lines 9 and 100: found hours 0 and 24; allowed: hours 1 to 24, or else 0 to 23"
    );
}

#[test]
fn daylight_saving_is_not_applied_and_said() {
    let mut lines = quiet();
    lines[4] = lines[4].replace("No,0,0,0", "No,3/10,11/3,0");
    let said = "line 5: daylight saving from \"3/10\" to \"11/3\" is not applied: rows are in standard time";
    check_notes(&lines, &[said]);
}

#[test]
fn a_comment_about_the_time_of_irradiance_is_told() {
    let mut lines = quiet();
    lines[6] = "COMMENTS 2,Irradiance Time Offset (h):-0.8239".to_owned();
    let said = "line 7: says that irradiance is that at -0.8239 h from the time of its row: not followed, but checked";
    check_notes(&lines, &[said]);
}

#[test]
fn a_little_beyond_what_can_be_is_cut_and_said() {
    let mut lines = quiet();
    set(&mut lines, 20, 8, "104");
    set(&mut lines, 21, 13, "-3");
    set(&mut lines, 22, 12, "0");
    let year = check_notes(
        &lines,
        &[
            "line 20, relative humidity: more than 100 %: cut to 100 %",
            "line 21, irradiance: a little below zero: taken as 0",
            "line 22, horizontal infrared: colder than any sky: left to a formula",
            "horizontal infrared: not in the file: left to a formula for the sky (1 h)",
        ],
    );
    assert_eq!((year.hours[11].relative_humidity, year.hours[12].global), (1.0, 0.0));
    assert_eq!(year.hours[13].horizontal_infrared, None);
}

#[test]
fn a_forgotten_sign_of_the_longitude_is_said() {
    let mut lines = quiet();
    lines[0] = lines[0].replace("-75.0", "75.0");
    check_notes(&lines, &["line 1, LOCATION: longitude 75° and time zone -5 h are 10.0 h apart"]);
}

#[test]
fn what_is_no_weather_file_is_refused() {
    for (bytes, problems) in [(&b""[..], 2), (b"%PDF-1.7\n\0\x01", 1), (b"2019,1,1,1,60", 3), (b"LOCATION;a;b", 2)] {
        let said = read_epw(bytes).unwrap_err();
        assert_eq!(said.len(), problems, "{said:#?}");
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(12))]

    /// Whatever a file has become, it is read or refused with a reason, and what is read is whole and sensible.
    #[test]
    fn mangled_files_never_panic(
        hits in proptest::collection::vec((0.0..1.0_f64, proptest::prelude::any::<u8>()), 1..40),
        head in proptest::collection::vec((0..700_usize, proptest::prelude::any::<u8>()), 0..4),
        cut in 0.0..1.5_f64,
    ) {
        let mut bytes = quiet().join("\n").into_bytes();
        for (place, byte) in hits {
            let place = (place * bytes.len() as f64) as usize;
            bytes[place] = byte;
        }
        for (place, byte) in head {
            bytes[place] = byte;
        }
        if cut < 1.0 {
            bytes.truncate((cut * bytes.len() as f64) as usize);
        }
        match read_epw(&bytes) {
            Ok(year) => {
                assert_eq!(year.hours.len(), HOURS);
                assert!(year.site.check().is_empty());
                for hour in &year.hours {
                    assert_eq!(*hour, hour.kept());
                    assert!((-90.0..=60.0).contains(&hour.dry_bulb) && (0.0..=1.0).contains(&hour.relative_humidity));
                }
            }
            Err(problems) => assert!(!problems.is_empty()),
        }
    }

    #[test]
    fn random_bytes_never_panic(bytes in proptest::collection::vec(proptest::prelude::any::<u8>(), 0..2000)) {
        assert!(read_epw(&bytes).is_err_and(|problems| !problems.is_empty()));
    }
}
