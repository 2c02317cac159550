"""What holds for every test: how long an example takes is no matter of right or wrong on a busy machine."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
