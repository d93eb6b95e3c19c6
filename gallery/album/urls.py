"""Addresses of the album desk and of the film, all under the teacher's desk."""

from django.urls import path

from gallery.album import desk, films, handed, slides

urlpatterns = [
    path("series/<slug:slug>/albums/", desk.albums, name="albums"),
    path("albums/<str:public_id>/", desk.album, name="album"),
    path("albums/<str:public_id>/collect/", desk.album_collect, name="album_collect"),
    path("albums/<str:public_id>/details/", desk.album_details, name="album_details"),
    path("albums/<str:public_id>/film/", films.make_film, name="make_film"),
    path("albums/<str:public_id>/<str:slide_id>/move/", slides.slide_move, name="slide_move"),
    path("albums/<str:public_id>/<str:slide_id>/out/", slides.slide_out, name="slide_out"),
    path("albums/<str:public_id>/<str:slide_id>/back/", slides.slide_back, name="slide_back"),
    path("albums/<str:public_id>/<str:slide_id>/name/", slides.slide_name, name="slide_name"),
    path("albums/<str:public_id>/<str:slide_id>/words/", slides.slide_words, name="slide_words"),
    path(
        "albums/<str:public_id>/<str:slide_id>/<int:width>.jpg",
        slides.slide_picture,
        name="slide_picture",
    ),
    path("films/<str:public_id>/", films.film, name="film"),
    path("films/<str:public_id>/cancel/", films.film_cancel, name="film_cancel"),
    path("films/<str:public_id>/go-on/", films.film_go_on, name="film_go_on"),
    path("films/<str:public_id>/film.mp4", films.film_file, name="film_file"),
    path("films/<str:public_id>/poster.jpg", films.film_poster, name="film_poster"),
    path("films/<str:public_id>/captions.vtt", films.film_captions, name="film_captions"),
    path("films/<str:public_id>/pack.zip", films.film_pack, name="film_pack"),
    path("films/<str:public_id>/copies/", handed.film_copies, name="film_copies"),
    path("films/<str:public_id>/copies/strike/", handed.copy_struck, name="copy_struck"),
    path("films/<str:public_id>/copies/told/", handed.copy_told, name="copy_told"),
    path("films/<str:public_id>/authority/", handed.film_authority, name="film_authority"),
    path("films/<str:public_id>/authority.json", handed.authority_file, name="authority_file"),
]
