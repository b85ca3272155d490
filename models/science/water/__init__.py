"""Every flow names its formula, limits and source; an estimate is called one."""
