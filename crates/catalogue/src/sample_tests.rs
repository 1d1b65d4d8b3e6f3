use super::*;
#[test]
fn loads_without_a_problem() {
    let problems = load(&FILES).err().unwrap_or_default();
    assert!(problems.is_empty(), "{}", problems.iter().map(|p| p.to_string()).collect::<Vec<_>>().join("\n"));
}
