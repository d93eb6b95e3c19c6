"""What a sender can take with her, prove, erase, and get back when she lost her link."""

import io
import json
import re
import zipfile
from typing import Any

import pytest
import rdflib
from django.core import mail
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from gallery import jobs
from gallery.consent.ledger import broken_entries
from gallery.consent.models import Agreement, Entry
from gallery.consent.purposes import PURPOSES
from gallery.contributions.limits import MOST_LETTERS_A_DAY
from gallery.contributions.limits import MOST_LOST_LINKS_AN_HOUR as MOST_AN_HOUR
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.pictures import originals

from .conftest import Knitter, picture

pytestmark = pytest.mark.django_db
ALL_YES = {f"allow_{purpose}": "yes" for purpose in PURPOSES}
DPV, DCT = "https://w3id.org/dpv#", "http://purl.org/dc/terms/"
# Terms of the Data Privacy Vocabulary that our records use, as its release 2.0 and its guide for
# ISO/IEC TS 27560 name them (https://w3id.org/dpv, https://w3id.org/dpv/guides/consent-27560).
TERMS = {
    *("ConsentRecord", "ConsentNotice", "ConsentGiven", "ConsentRefused", "ConsentWithdrawn"),
    *("DataSubject", "DataController", "Process", "Purpose", "PersonalData", "Consent"),
    *("hasDataSubject", "hasDataController", "hasNotice", "hasProcess", "hasPurpose"),
    *("hasLegalBasis", "hasPersonalData", "hasConsentStatus", "hasName", "hasContact"),
    *("hasAddress", "isIndicatedBy", "isIndicatedAtTime", "hasIndicationMethod"),
}


@pytest.fixture
def sent(knitter: Knitter) -> Knitter:
    answers = {**ALL_YES, "allow_name": "no"}
    knitter.post(pictures=picture(), body_length_amount="5", email="anna@example.org", **answers)
    knitter.browser.get(knitter.link)
    return knitter


def own(knitter: Knitter, path: str = "") -> str:
    return f"/mine/{knitter.garment.public_id}/{path}"


def test_the_receipt_shows_every_answer_in_its_exact_words(sent: Knitter) -> None:
    page = sent.browser.get(own(sent, "receipt/")).content.decode()
    for entry in Entry.objects.select_related("text"):
        assert entry.text.sentence in page
    assert page.count("Words, version 1") == 4 and "no legal advice" in page


def test_the_receipt_is_read_by_a_reader_that_is_not_ours(sent: Knitter) -> None:
    text = sent.browser.get(own(sent, "receipt.jsonld")).content.decode()
    graph = rdflib.Graph().parse(data=text, format="json-ld")
    dpv = rdflib.Namespace(DPV)
    [record] = graph.subjects(rdflib.RDF.type, dpv.ConsentRecord)
    assert str(record) == f"urn:uuid:{sent.garment.agreement.uuid}"
    assert len(list(graph.subjects(rdflib.RDF.type, dpv.ConsentGiven))) == 3
    assert len(list(graph.subjects(rdflib.RDF.type, dpv.ConsentRefused))) == 1
    assert len(list(graph.objects(record, dpv.hasProcess))) == 4


def test_every_term_of_the_record_is_one_of_the_vocabulary(sent: Knitter) -> None:
    text = sent.browser.get(own(sent, "receipt.jsonld")).content.decode()
    graph = rdflib.Graph().parse(data=text, format="json-ld")
    used = {str(one)[len(DPV) :] for triple in graph for one in triple if str(one).startswith(DPV)}
    used = {term for term in used if not term.startswith("schema")}
    assert used and used <= TERMS


# ISO/IEC TS 27560, clause 6.3, as the vocabulary's guide lists it: record and schema, principal,
# controller, notice, purposes, legal basis, personal data, events with type, time, entity, method.
def test_the_record_holds_what_the_standard_makes_mandatory(sent: Knitter) -> None:
    text = sent.browser.get(own(sent, "receipt.jsonld")).content.decode()
    record = json.loads(text)
    assert record["dct:conformsTo"]["@id"].endswith("dpv-27560#receipt")
    for name in ("dct:identifier", "dpv:hasDataSubject", "dpv:hasDataController", "dpv:hasNotice"):
        assert record[name]
    for process in record["dpv:hasProcess"]:
        assert process["dpv:hasPurpose"] and process["dpv:hasLegalBasis"]
        [event] = process["dpv:hasConsentStatus"]
        assert event["dpv:isIndicatedBy"] and event["dpv:hasIndicationMethod"]
        assert event["dpv:isIndicatedAtTime"]["@value"]


def test_a_withdrawal_is_a_second_event_of_its_purpose(sent: Knitter) -> None:
    sent.browser.post(own(sent, "permissions/"), {"purpose": "film", "answer": "no"})
    record = json.loads(sent.browser.get(own(sent, "receipt.jsonld")).content)
    [film] = [one for one in record["dpv:hasProcess"] if one["dct:identifier"] == "film"]
    assert [one["@type"] for one in film["dpv:hasConsentStatus"]] == [
        "dpv:ConsentGiven",
        "dpv:ConsentWithdrawn",
    ]


def pack_of(sent: Knitter) -> zipfile.ZipFile:
    answer = sent.browser.get(own(sent, "everything.zip"))
    assert (
        answer["Cache-Control"].startswith("private, no-store")
        or "no-store" in answer["Cache-Control"]
    )
    return zipfile.ZipFile(io.BytesIO(b"".join(answer)))


def test_the_pack_holds_the_originals_byte_for_byte(sent: Knitter) -> None:
    pack = pack_of(sent)
    assert pack.testzip() is None
    photo = sent.garment.photos.get()
    [name] = [one for one in pack.namelist() if one.startswith("photos/")]
    with originals().open(photo.original_sha256) as original:
        assert pack.read(name) == original.read()


def test_the_pack_holds_her_data_and_nothing_of_others(sent: Knitter, series: Any) -> None:
    other = Knitter(series)
    other.post(pictures=picture(), credit_name="Somebody Else", email="else@example.org")
    pack = pack_of(sent)
    data = json.loads(pack.read("data.json"))
    assert (data["email"], data["numbers"]["size"]) == ("anna@example.org", "3")
    assert data["numbers"]["changes"] == [{"kind": "body_length", "entered": {"change": "5 cm"}}]
    everything = b"".join(pack.read(name) for name in pack.namelist() if "photos" not in name)
    assert b"Somebody Else" not in everything and b"else@example.org" not in everything
    assert json.loads(pack.read("consents.jsonld"))["@type"] == "dpv:ConsentRecord"


@pytest.mark.parametrize("path", ["receipt/", "receipt.jsonld", "everything.zip", "erase/"])
def test_nobody_else_reaches_what_is_hers(sent: Knitter, path: str) -> None:
    assert Client().get(own(sent, path)).status_code == 404
    assert Client().get(f"/mine/missing/{path}").status_code == 404


def test_looking_at_the_erase_page_erases_nothing(sent: Knitter) -> None:
    page = sent.browser.get(own(sent, "erase/")).content.decode()
    assert (
        "cannot be undone" in page and Contribution.objects.filter(sent_at__isnull=False).exists()
    )


def test_erasing_removes_all_but_the_proof(sent: Knitter) -> None:
    garment = sent.garment
    photo, agreement = garment.photos.get(), garment.agreement
    address = own(sent, "erase/")
    answer = sent.browser.post(address)
    assert answer.status_code == 303
    assert not Contribution.objects.filter(pk=garment.pk).exists() and not Photo.objects.exists()
    assert not originals().path(photo.original_sha256).exists()
    assert Agreement.objects.filter(pk=agreement.pk).exists()
    answers = list(agreement.entries.order_by("seq").values_list("answer", flat=True))
    assert answers == ["given"] * 3 + ["refused"] + ["withdrawn"] * 3
    assert list(broken_entries()) == []
    assert sent.browser.get(own_page(garment)).status_code == 404


def own_page(garment: Contribution) -> str:
    return f"/mine/{garment.public_id}/"


def ask(email: str, browser: Client | None = None) -> str:
    page = (browser or Client()).post("/mine/lost/", {"email": email}).content.decode()
    jobs.work_off()
    return re.sub(r'(csrfmiddlewaretoken" value|nonce)="[^"]+"', "", page)


def test_a_lost_link_is_sent_again_and_works(
    sent: Knitter, django_capture_on_commit_callbacks: Any
) -> None:
    jobs.work_off()
    mail.outbox.clear()
    with django_capture_on_commit_callbacks(execute=True):
        ask("Anna@example.org")
    [letter] = mail.outbox
    [path] = re.findall(r"(/mine/link/[\w-]{43}/)", letter.body)
    browser = Client()
    assert browser.get(path).status_code == 303
    assert browser.get(own(sent)).status_code == 200
    assert sent.browser.get(sent.link).status_code == 303  # the old one goes on working


def test_known_and_unknown_addresses_get_the_same_answer(sent: Knitter) -> None:
    assert ask("anna@example.org") == ask("nobody@example.org")


def test_known_and_unknown_addresses_cost_the_page_the_same_work(sent: Knitter) -> None:
    taken = []
    for email in ("anna@example.org", "nobody@example.org"):
        with CaptureQueriesContext(connection) as asked:
            Client().post("/mine/lost/", {"email": email})
        taken.append([one["sql"].split()[0] for one in asked.captured_queries])
    assert taken[0] == taken[1] and "INSERT" in taken[0]


def test_one_address_is_not_flooded_with_letters(
    sent: Knitter, django_capture_on_commit_callbacks: Any
) -> None:
    jobs.work_off()
    mail.outbox.clear()
    with django_capture_on_commit_callbacks(execute=True):
        for _ in range(MOST_LETTERS_A_DAY + 2):
            ask("anna@example.org")
    assert len(mail.outbox) == MOST_LETTERS_A_DAY


def test_one_connection_may_not_ask_without_end(sent: Knitter) -> None:
    found = [
        Client().post("/mine/lost/", {"email": "nobody@example.org"}).status_code
        for _ in range(MOST_AN_HOUR + 1)
    ]
    assert found == [200] * MOST_AN_HOUR + [429]


@pytest.mark.parametrize("email", ["", "no address", "a@b"])
def test_a_broken_address_is_said_beside_its_field(knitter: Knitter, email: str) -> None:
    page = Client().post("/mine/lost/", {"email": email}).content.decode()
    assert "address" in page and "on its way" not in page


def test_the_letter_of_arrival_holds_the_answers_and_is_html_too(
    knitter: Knitter, django_capture_on_commit_callbacks: Any
) -> None:
    with django_capture_on_commit_callbacks(execute=True):
        knitter.post(pictures=picture(), email="anna@example.org", **ALL_YES)
    [letter] = mail.outbox
    assert letter.body.count("Yes") == 4 and "may be shown in the closing film" in letter.body
    [(html, kind)] = letter.alternatives
    assert kind == "text/html" and '<a href="' in html and "<img" not in html
