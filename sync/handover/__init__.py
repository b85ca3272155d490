"""An exchange with one file that nobody is trusted to have made well."""
