"""What a sender says about the people in one picture, as plain values."""

from dataclasses import dataclass

from gallery.contributions.models import Photo

People = Photo.People


@dataclass(frozen=True)
class PeopleSaid:
    """Who can be recognised, and who agrees; what does not belong to the answer is left out.

    Of a child's parent or guardian only the address is asked: the letter needs it, and a name
    would be one more thing kept about a person who has not agreed to anything yet.
    """

    people: str = People.UNSAID
    others_agree: bool = False
    sender_is_guardian: bool = False
    guardian_email: str = ""

    @property
    def facts(self) -> dict[str, str | bool]:
        """As the photo keeps it: a child's guardian with a child's picture only, and so on."""
        is_child = self.people == People.CHILD
        return {
            "people": self.people,
            "others_agree": self.others_agree and self.people == People.OTHERS,
            "sender_is_guardian": self.sender_is_guardian and is_child,
            "guardian_email": self.guardian_email
            if is_child and not self.sender_is_guardian
            else "",
        }


NOBODY = PeopleSaid(People.NOBODY)


def said_of(photo: Photo) -> PeopleSaid:
    """What is kept about a photo."""
    return PeopleSaid(
        photo.people, photo.others_agree, photo.sender_is_guardian, photo.guardian_email
    )


def is_complete(photo: Photo) -> bool:
    """Whether the sender has said everything that is asked of her about this photo."""
    if photo.people == People.OTHERS:
        return photo.others_agree
    if photo.people == People.CHILD:
        return photo.sender_is_guardian or bool(photo.guardian_email)
    return photo.people != People.UNSAID
