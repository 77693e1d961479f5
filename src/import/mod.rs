//! Reads files from outside: catalog CSV, house and criteria TOML, weather.
