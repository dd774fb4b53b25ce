//! Lets Tauri read its configuration, icons and capabilities at build time, and
//! gives the one command a permission, so that only the listed window may call it.

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let commands = tauri_build::AppManifest::new().commands(&["call"]);
    tauri_build::try_build(tauri_build::Attributes::new().app_manifest(commands))?;
    Ok(())
}
