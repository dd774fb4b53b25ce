//! Gathers the steps of the notebook's schema, so that a new one needs its file alone.

use std::error::Error;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new("../../migrations/notebook");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut steps: Vec<PathBuf> = fs::read_dir(folder)?
        .map(|entry| Ok(entry?.path().canonicalize()?))
        .collect::<Result<_, Box<dyn Error>>>()?;
    steps.sort();
    for (number, step) in (1..).zip(&steps) {
        let name = step.file_name().and_then(|name| name.to_str());
        if !name.is_some_and(|name| name.starts_with(&format!("{number:04}_"))) {
            let step = step.display();
            return Err(format!(
                "{step} is not step {number:04}: number the steps from 0001 on, each once"
            )
            .into());
        }
    }
    let included = steps
        .iter()
        .map(|step| format!("include_str!({step:?}),\n"))
        .collect::<String>();
    let file = Path::new(&env::var("OUT_DIR")?).join("steps.rs");
    fs::write(file, format!("[\n{included}]"))?;
    Ok(())
}
