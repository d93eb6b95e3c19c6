"""The first wording of each question in German: the same promises as the English ones."""

from gallery.consent.purposes import FILM, NAME, NOTES, PUBLIC_PAGES, Question, label_of

QUESTIONS_IN_GERMAN = (
    Question(
        FILM,
        label_of(FILM),
        "Meine Fotos von diesem Strickstück dürfen im Abschlussfilm dieser Serie gezeigt werden.",
        "Der Film erscheint mit der Serie. Alle können ihn ansehen und kopieren. Wenn Sie es sich "
        "anders überlegen, verlassen Ihre Fotos den Film hier sofort, und der Film wird ohne sie "
        "neu gemacht. Kopien, die andere schon haben, kann niemand zurückholen.",
    ),
    Question(
        PUBLIC_PAGES,
        label_of(PUBLIC_PAGES),
        "Meine Fotos von diesem Strickstück dürfen auf den öffentlichen Seiten hier gezeigt "
        "werden.",
        "Dort können alle sie sehen. Wenn Sie es sich anders überlegen, sind sie sofort von den "
        "Seiten weg. Suchmaschinen behalten vielleicht noch eine Weile eine Kopie.",
    ),
    Question(
        NOTES,
        label_of(NOTES),
        "Was ich geändert habe, meine Zahlen und meine Notizen dürfen anderen Strickenden gezeigt "
        "werden.",
        "Andere können lesen, wie Sie die Anleitung geändert haben: auf den öffentlichen Seiten "
        "und unter Ihrem Bild, wenn der Film es zeigt. Ihre Zahlen werden mit denen der anderen "
        "gezählt. Ihr Name steht nur dabei, wenn Sie das in der nächsten Frage erlauben.",
    ),
    Question(
        NAME,
        label_of(NAME),
        "Mein Name darf genau so gezeigt werden, wie ich ihn hier schreibe, überall, wo meine "
        "Fotos oder Notizen gezeigt werden.",
        "Sonst stehen neutrale Worte an seiner Stelle. Ihre E-Mail-Adresse wird nie gezeigt.",
    ),
)
