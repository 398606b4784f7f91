"""Coverage-guided fuzzing with atheris: ``python -m tests.fuzz --minutes 10 check``."""
