"""Looking into pictures: what is one, how large it is, whether it is whole, and whether it tells a place."""

from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from tests import pictures
from tests.pictures import Picture, camera, drawn, jpeg, png, position, saved, text_in_png, webp

from evenbed.pictures import BadPictureError, check_picture
from evenbed.wire.problems import Code

MOST = 1_000_000
WHOLE = {"JPEG": jpeg(), "PNG": png(), "WEBP": webp(lossless=True)}


def refusal_of(picture: Picture, most_pixels: int = MOST) -> Code:
    """The code it is refused with."""
    with pytest.raises(BadPictureError) as refused:
        check_picture(picture.content, picture.said(), most_pixels)
    return refused.value.code


@pytest.mark.parametrize("picture", WHOLE.values(), ids=WHOLE.keys())
def test_a_picture_of_each_type_gets_a_thumbnail_of_its_shape_with_nothing_beside_the_pixels(
    picture: Picture,
) -> None:
    with Image.open(BytesIO(check_picture(picture.content, picture.said(), MOST))) as small:
        small.load()
        assert (small.format, small.size) == ("JPEG", (320, 240))
        assert small.info.keys() <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        assert not small.getexif()


def test_a_thumbnail_stands_upright_and_loses_comment_profile_and_exif() -> None:
    content = saved(drawn(), exif=camera(), comment=b"a note", icc_profile=b"a profile")
    with Image.open(BytesIO(check_picture(content, Picture(content).said(), MOST))) as small:
        assert small.size == (240, 320)
        assert not {"comment", "icc_profile", "exif"} & small.info.keys()


def test_a_clear_picture_stands_on_white() -> None:
    content = saved(Image.new("RGBA", (640, 480), (0, 0, 0, 0)), "PNG")
    with Image.open(BytesIO(check_picture(content, Picture(content, "image/png").said(), MOST))) as small:
        assert small.getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize("kind", WHOLE)
@pytest.mark.parametrize("share", [0.3, 0.7, 0.97])
def test_a_picture_cut_short_is_damaged(kind: str, share: float) -> None:
    whole = WHOLE[kind]
    assert refusal_of(Picture(whole.content[: int(whole.size * share)], whole.media_type)) is Code.PHOTO_DAMAGED


def test_bytes_of_another_hash_are_damaged() -> None:
    picture, other = jpeg(), jpeg(colour=200)
    with pytest.raises(BadPictureError) as refused:
        check_picture(other.content, picture.said(), MOST)
    assert refused.value.code is Code.PHOTO_DAMAGED


def test_a_flipped_bit_in_a_png_is_damage_whatever_the_hash_says() -> None:
    content = bytearray(png().content)
    content[len(content) // 2] ^= 1
    assert refusal_of(Picture(bytes(content), "image/png")) is Code.PHOTO_DAMAGED


EXIF_PLACES = {
    "JPEG": jpeg(exif=position()),
    "PNG": png(exif=position()),
    "WebP": webp(exif=position()),
    "a second picture behind the first": Picture(jpeg().content + jpeg(exif=position()).content),
}
XMP_PLACES = {
    "JPEG": jpeg(xmp=pictures.XMP.encode()),
    "WebP": webp(xmp=pictures.XMP.encode()),
    "PNG": png(pnginfo=text_in_png("XML:com.adobe.xmp", pictures.XMP, packed=False)),
    "packed in a PNG": png(pnginfo=text_in_png("XML:com.adobe.xmp", pictures.XMP, packed=True)),
}


@pytest.mark.parametrize("picture", EXIF_PLACES.values(), ids=EXIF_PLACES.keys())
def test_a_position_in_exif_is_refused(picture: Picture) -> None:
    assert refusal_of(picture) is Code.PHOTO_HAS_POSITION


@pytest.mark.parametrize("picture", XMP_PLACES.values(), ids=XMP_PLACES.keys())
def test_a_position_in_xmp_is_refused(picture: Picture) -> None:
    assert refusal_of(picture) is Code.PHOTO_HAS_POSITION


@pytest.mark.parametrize("picture", [jpeg(exif=camera()), png(exif=camera()), webp(exif=camera())])
def test_exif_without_a_position_is_taken(picture: Picture) -> None:
    assert check_picture(picture.content, picture.said(), MOST)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"GIF89a",
        b"<html><script>alert(1)</script></html>",
        b"%PDF-1.7",
        saved(drawn(), "GIF"),
        saved(drawn(), "TIFF"),
    ],
)
def test_what_is_none_of_the_three_types_is_refused_whatever_it_is_called(content: bytes) -> None:
    assert refusal_of(Picture(content)) is Code.PHOTO_UNKNOWN_TYPE


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_a_moving_picture_is_refused(kind: str) -> None:
    content = saved(drawn(), kind, save_all=True, append_images=[drawn(colour=200)])
    assert refusal_of(Picture(content, f"image/{kind.lower()}")) is Code.PHOTO_UNKNOWN_TYPE


def test_bombs_are_refused_by_what_they_announce_before_anything_is_unpacked() -> None:
    png_bomb = Picture(pictures.png_bomb(8_000), "image/png", 8_000, 8_000)
    assert png_bomb.size < 20_000
    assert refusal_of(png_bomb) is Code.PHOTO_TOO_LARGE
    assert refusal_of(Picture(pictures.webp_bomb(16_384), "image/webp")) is Code.PHOTO_TOO_LARGE
    assert refusal_of(Picture(saved(Image.new("L", (9_000, 8))), width=9_000, height=8)) is Code.PHOTO_TOO_LARGE


def test_a_picture_that_is_not_what_its_record_says_is_refused() -> None:
    content = jpeg().content
    for said in (Picture(content, "image/png"), Picture(content, width=641), Picture(content, height=1)):
        assert refusal_of(said) is Code.PHOTO_DIFFERS


@settings(max_examples=150, deadline=None)
@given(kind=st.sampled_from(sorted(WHOLE)), data=st.data())
def test_whatever_is_done_to_a_file_it_is_judged_and_nothing_breaks(kind: str, data: st.DataObject) -> None:
    whole = WHOLE[kind]
    content = bytearray(whole.content)
    for _ in range(data.draw(st.integers(1, 6))):
        content[data.draw(st.integers(0, min(400, len(content) - 1)))] = data.draw(st.integers(0, 255))
    bad = Picture(bytes(content), whole.media_type)
    try:
        thumbnail = check_picture(bad.content, bad.said(), MOST)
    except BadPictureError:
        return  # any other error is a mistake of ours, and fails here
    with Image.open(BytesIO(thumbnail)) as small:
        assert max(small.size) <= 320
