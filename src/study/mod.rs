//! One house against many units: verdicts and ranking.
