//! The cooling season: coil, moisture balance, turndown.
