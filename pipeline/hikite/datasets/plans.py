"""What a dataset is to be made of."""

import math
from typing import Literal, Self

from pydantic import BaseModel, Field, model_validator

Part = Literal["train", "dev", "test"]
Shape = Literal["lines", "iob", "documents", "tables"]
PARTS: tuple[Part, ...] = ("train", "dev", "test")
SHAPES: tuple[Shape, ...] = ("lines", "iob", "documents", "tables")


class Plan(BaseModel, frozen=True, extra="forbid"):
    """``shares`` is how much goes to train, dev and test; ``seed`` chooses among equal ways to do so.

    Entries less sure than ``least`` are no labels, unless a person stands for them. ``machine`` leaves out
    what people decided.
    """

    shapes: tuple[Shape, ...] = ("lines", "iob", "documents")
    least: float = Field(default=0.5, ge=0, le=1)
    seed: int = 1
    shares: tuple[float, float, float] = (0.8, 0.1, 0.1)
    machine: bool = False

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if min(self.shares) < 0 or not math.isclose(sum(self.shares), 1, abs_tol=1e-6):
            raise ValueError("the shares of train, dev and test are not negative and make 1 together")
        return self
