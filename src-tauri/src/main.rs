//! Headwalk as a desktop program.

#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

fn main() -> tauri::Result<()> {
    headwalk_shell::run()
}
