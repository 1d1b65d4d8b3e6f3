//! What the program says of itself.

/// Shown by `--help`.
pub(crate) const USAGE: &str = "\
baywright check FILE [--json] [--units metric|us] [--with-catalogue PATH]...
    Answers every check on a project file, with its working. FILE may be - for standard input.
    --json             the same report as JSON; its numbers are in the base unit of their kind
    --units            units of the text: metric (usual) or us
    --with-catalogue   judge with this catalogue file, or folder of *.toml files, instead of the
                       shipped one; may stand several times, and all files together are the catalogue

baywright schedule FILE [--json] [--units metric|us] [--with-catalogue PATH]...
    Writes what a shop wires by: load centres and direct-current distributions with their circuits,
    the wire list, alarm terminals and the places of the ground bars.
    --json             the same as one JSON object; numbers are in V, A, VA, W and m

baywright day FILE [--climate X.epw] [--json] [--units metric|us] [--with-catalogue PATH]...
baywright year FILE [--climate X.epw] [--json] [--units metric|us] [--with-catalogue PATH]...
    Runs a project through its hottest and coldest day, or through a year of 8760 hours, and
    answers the checks over time. Progress is told on standard error when that is a terminal.
    --climate          with the weather of this EPW file; without it the brief's own climate
    --json             the same as one JSON object: the checks' findings; rooms and units; with day
                       hot_day, cold_day and the four runs from a moment on (door_open,
                       cooling_lost, grid_lost, cold_start); with year the year, room_years,
                       unit_years, peaks, batteries and energy (electricity [kWh] and its cost by
                       month and in the year). A stretch of time has its step in h and lists of
                       numbers, one a step: outside, and for each room air and highest [°C]; sun,
                       and for each of front, rear, left, right, roof faces [W/m²]; sun_height,
                       sun_bearing [°]; for each unit duty [0 to 1]. The year begins on 1 January,
                       0 h, local standard time

baywright check --catalogue PATH...
    Checks catalogue files, or folders of *.toml files, taken together as one catalogue.

baywright samples
    Lists the sample projects.

baywright sample NAME
    Writes a sample project to standard output, as a project file.

Exit code
    0   every promise is kept: nothing fails and nothing is open (tight is kept); a schedule is
        complete
    1   something fails, needs data or is out of range; the report says what
    2   bad input, a command not understood, or an output that cannot be written; all problems are
        told on standard error, and with --json on standard output too:
        {\"format\": \"baywright-problems\", \"version\": 1, \"all_hold\": false,
         \"refused\": [{\"what\": \"a.json\", \"problems\": [\"...\"]}]}";

/// The first lines of the usage of each command: what is said after a command that was not understood.
pub(crate) fn synopsis() -> String {
    let lines: Vec<&str> = USAGE.lines().filter(|line| line.starts_with("baywright ")).collect();
    lines.join("\n")
}
