//! The arguments of the speed tables.

/// What the arguments ask for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The number of runs of each contestant.
    pub runs: usize,
    /// The largest size, too.
    pub large: bool,
    /// The rows whose name has this in it.
    pub only: String,
}

impl Asked {
    /// Reads `--runs N`, `--large` and `--only WORD`; cargo's own `--bench` is skipped.
    ///
    /// # Errors
    ///
    /// What is wrong with the arguments, in words.
    pub fn read(arguments: impl IntoIterator<Item = String>) -> Result<Self, String> {
        let mut asked = Self {
            runs: 15,
            large: false,
            only: String::new(),
        };
        let mut arguments = arguments.into_iter();
        while let Some(argument) = arguments.next() {
            let mut value = || arguments.next().ok_or(format!("{argument} takes a value"));
            match argument.as_str() {
                "--runs" => {
                    let runs = value()?;
                    asked.runs = (runs.parse().ok())
                        .filter(|runs| *runs > 0)
                        .ok_or(format!("--runs takes a number above 0, not {runs:?}"))?;
                }
                "--only" => asked.only = value()?,
                "--large" => asked.large = true,
                "--bench" => {}
                _ => return Err(format!("{argument}: not one of --runs, --only, --large")),
            }
        }
        Ok(asked)
    }

    /// Whether a row of this name is asked for.
    #[must_use]
    pub fn wants(&self, name: &str) -> bool {
        name.contains(&self.only)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arguments_are_read_or_refused_in_words() {
        let read = |words: &[&str]| Asked::read(words.iter().map(|w| (*w).to_owned()));
        let asked = read(&["--bench", "--only", "plan", "--large"]).expect("arguments");
        assert!(asked.large && asked.wants("whole plan") && !asked.wants("affine"));
        assert!(
            read(&["--runs", "0"])
                .expect_err("0 runs")
                .contains("above 0")
        );
        assert!(
            read(&["--fast"])
                .expect_err("no option")
                .starts_with("--fast: not one")
        );
    }
}
