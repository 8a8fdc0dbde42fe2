// Letters: those of the languages are in the faces, and words that lack one are drawn by the platform.
#include "engine/base/embedded.h"
#include "tests/headless.h"
#include "tests/support.h"

#include <imgui_internal.h>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// The first letter of a text that a face lacks; 0 none.
unsigned lacked_by(const ImFont& font, std::string_view text) {
    const char *at = text.data(), *end = at + text.size();
    while (at < end) {
        unsigned letter = 0;
        at += ImTextCharFromUtf8(&letter, at, end);
        if (letter >= ' ' && !font.FindGlyphNoFallback(static_cast<ImWchar>(letter)))
            return letter;
    }
    return 0;
}

Setup titled(const char* title) {
    Setup setup = example("small-sag");
    setup.title = title;
    return setup;
}

// As a browser would: every dot of a word of so many letters is ink.
void draw_wanted(Interface& page, int width) {
    std::string wanted = page.words_to_draw();
    for (std::size_t end; (end = wanted.find('\n')) != std::string::npos; wanted.erase(0, end + 1))
        for (std::size_t style = 0; style < text_styles; ++style)
            page.take_picture(
                std::stoul(wanted), style,
                {width, 10, std::vector<unsigned char>(static_cast<std::size_t>(width) * 10, 255)});
}

} // namespace

TEST_CASE("every text of every language has its letters, and the large face those of its notes") {
    Headless page(example("small-sag"));
    page.draw(phone);
    page.interface.controls().request("job.open", "");
    page.draw(phone);
    REQUIRE(page.interface.at_bench());
    REQUIRE(page.interface.load_fonts(1.0f));
    const auto& fonts = ImGui::GetIO().Fonts->Fonts;
    REQUIRE(fonts.size() == 5);
    for (const Language& language : languages()) {
        const Words words(language.code);
        for (const auto& [key, text] : words.all()) {
            INFO(language.code << " " << key);
            CHECK(lacked_by(*fonts[0], text) == 0);
            CHECK(lacked_by(*fonts[1], text) == 0);
        }
        INFO(language.code);
        CHECK(lacked_by(*fonts[4], words.text("language.notes")) == 0);
        CHECK(lacked_by(*fonts[4], "+0.5 −12,25 1⅜ ¼") == 0);
    }
    CHECK(lacked_by(*fonts[0], "Гитара") == 0x413);
}

TEST_CASE("words of a title that lack a letter are drawn by the platform, once") {
    Headless page(titled("Гитара von Анна 🎸"));
    page.draw(phone);
    CHECK(page.interface.take_wish() == "draw");
    CHECK(page.interface.words_to_draw() == "0 Гитара\n1 Анна\n2 🎸\n");
    page.draw(phone);
    CHECK(page.interface.take_wish().empty()); // asked for once
    CHECK_FALSE(page.interface.load_fonts(1.0f));
    page.interface.take_picture(40, 0, {1, 1, {255}}); // no such word, no such style, a picture that is torn
    page.interface.take_picture(0, 9, {1, 1, {255}});
    page.interface.take_picture(0, 0, {5, 5, {255}});
    CHECK_FALSE(page.interface.load_fonts(1.0f));
    draw_wanted(page.interface, 37);
    REQUIRE(page.interface.load_fonts(1.0f));
    const ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    for (int style = 0; style < text_styles; ++style) {
        const ImFontGlyph* word = atlas.Fonts[style]->FindGlyphNoFallback(DrawnWords::character(1));
        REQUIRE(word);
        CHECK(word->AdvanceX == 37.0f);
        CHECK(word->X1 - word->X0 == 37.0f);
        const int x = static_cast<int>(std::lround(word->U0 * static_cast<float>(atlas.TexWidth))),
                  y = static_cast<int>(std::lround(word->V0 * static_cast<float>(atlas.TexHeight)));
        CHECK(atlas.TexPixelsAlpha8[(y + 9) * atlas.TexWidth + x + 36] == 255);
    }
    page.draw(phone);
    CHECK(page.interface.take_wish().empty());
    // On a screen of finer dots the pictures are made anew.
    REQUIRE(page.interface.load_fonts(2.0f));
    page.draw(phone);
    CHECK(page.interface.take_wish() == "draw");
    draw_wanted(page.interface, 74);
    REQUIRE(page.interface.load_fonts(2.0f));
    CHECK(atlas.Fonts[0]->FindGlyphNoFallback(DrawnWords::character(0))->X1 == 37.0f);
}

TEST_CASE("however many titles are typed, the last one is drawn") {
    Headless page(titled("А"));
    page.interface.set_whose(Whose::own);
    page.draw(phone);
    for (int i = 0; i < 50; ++i) {
        page.interface.controls().request("title", "Ж" + std::to_string(i));
        page.draw(phone);
        draw_wanted(page.interface, 20);
        page.interface.load_fonts(1.0f);
        page.draw(phone);
        page.interface.take_wish();
    }
    CHECK(page.interface.bench().setup().title == "Ж49");
    page.draw(phone);
    CHECK(page.interface.take_wish().empty());
    CHECK(page.interface.words_to_draw().empty());
}

TEST_CASE("a file of faces that is none gives none") {
    CHECK(LanguageFaces().empty());
    for (const std::vector<unsigned char>& torn : std::vector<std::vector<unsigned char>>{
             {1}, {0, 0, 0, 0}, {0, 0, 0, 0, 1}, {9, 0, 0, 0, 1, 2}, {2, 0, 0, 0, 1, 2}})
        CHECK(LanguageFaces(torn).empty());
    const LanguageFaces faces({2, 0, 0, 0, 7, 8, 9});
    CHECK(faces.body().size() == 2);
    CHECK(faces.body()[1] == 8);
    CHECK(faces.strong().size() == 1);
    CHECK(faces.strong()[0] == 9);
}
