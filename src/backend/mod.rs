//! Display list or model to bytes: no decisions are made here.
