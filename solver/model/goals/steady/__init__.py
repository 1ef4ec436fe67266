"""Who keeps what over the whole expedition: loads dealt out as one problem, rides unchanged."""
