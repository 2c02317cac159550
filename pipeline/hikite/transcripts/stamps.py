"""Times as captions write them, to and from whole milliseconds."""


def clock_ms(hours: str | None, minutes: str, seconds: str, fraction: str | None = None) -> int:
    """Milliseconds of the parts of a written time; a fraction is cut after three digits."""
    thousandths = int(f"{fraction or '0':0<3.3}")
    return ((int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)) * 1000 + thousandths


def clock(ms: int, point: str = ".") -> str:
    """``hh:mm:ss.mmm`` of whole milliseconds."""
    seconds, thousandths = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}{point}{thousandths:03d}"
