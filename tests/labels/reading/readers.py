"""Two readers that know nothing of each other: zxing-cpp and zbar. Each gives the texts it finds in a picture."""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt
import zxingcpp
from PIL import Image
from pyzbar import pyzbar  # type: ignore[import-untyped]

Picture = npt.NDArray[np.uint8]


def by_zxing(picture: Picture) -> list[str]:
    """What zxing-cpp reads."""
    wanted = zxingcpp.BarcodeFormat.QRCode
    return [one.text for one in zxingcpp.read_barcodes(picture, formats=wanted)]  # type: ignore[arg-type]


def by_zbar(picture: Picture) -> list[str]:
    """What zbar reads."""
    found = pyzbar.decode(Image.fromarray(picture), symbols=[pyzbar.ZBarSymbol.QRCODE])
    return [one.data.decode("utf-8", "replace") for one in found]


READERS: Final = {"zxing-cpp": by_zxing, "zbar": by_zbar}
