"""One number system inside: millimetres, newtons, seconds, degrees Celsius, radians.

The names below only say what a plain ``float`` means in a signature.
"""

from __future__ import annotations

import math
from typing import Final, TypeAlias

Millimetre: TypeAlias = float
Radian: TypeAlias = float
Newton: TypeAlias = float
Second: TypeAlias = float
Celsius: TypeAlias = float
Kilowatt: TypeAlias = float
RevPerMinute: TypeAlias = float
Vec3: TypeAlias = tuple[float, float, float]

MM_PER_INCH: Final = 25.4
DEGREE: Final = math.pi / 180
MINUTE_OF_ARC: Final = DEGREE / 60
MICROMETRE: Final = 1e-3
