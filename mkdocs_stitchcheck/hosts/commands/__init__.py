"""The commands of the command line, one module each: ``add_to`` declares the options, ``run`` does the work."""
