### Settings, and the list of further screens.

title = Settings
scout = Your name, as scout
scout-hint = saved with every walk you start
language = Language

languages =
    .en = English
    .es = Español

units = Units

unit =
    .us = Acres, °F, bushels
    .metric = Hectares, °C, tonnes

hand = Hand that holds the phone
right = Right
left = Left
theme = Colors

themes =
    .system = Same as the phone
    .light = Light
    .dark = Dark

answers-title = How sure is sure enough
level = Level of the ranges, percent
target-chance = Stage counts as sure from, percent
target-width = or range no wider than, stages
per-stop = Minutes to reach one more stop
per-head = Minutes to read one head
heads-per-stop = Heads usually read at a stop
assumption-note = is an assumption of yours. Answers rest on it; change it wherever you see it.
more-title = More
about = About
about-text = Everything stays on this device and works without signal. Typeface: Source Sans 3, under the SIL Open Font License 1.1.
font-licence = Its license
