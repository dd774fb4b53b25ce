//! Lets Tauri read its configuration, icons and capabilities at build time, and
//! gives each command a permission, so that only the listed window may call it.

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let commands = tauri_build::AppManifest::new().commands(&[
        "call",
        "take_files",
        "photo",
        "file_out",
        "archive_in",
        "crew",
        "crew_file_in",
        "crew_file_out",
    ]);
    tauri_build::try_build(tauri_build::Attributes::new().app_manifest(commands))?;
    Ok(())
}
