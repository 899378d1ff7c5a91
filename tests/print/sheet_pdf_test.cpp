// Each PDF is read by programs that are no part of the project: qpdf, and poppler's pdffonts,
// pdfinfo and pdftotext.
#include "print/sheet_pdf.h"

#include <regex>
#include <sstream>

#include <catch2/catch.hpp>

#include "print/print_tools.h"
#include "print/sample_sheets.h"

using namespace coatwright;

namespace {

std::string pdf_of(const Sheet& sheet, PaperSize paper = PaperSize::kA4) {
  const auto pdf = sheet_as_pdf(sheet, paper);
  REQUIRE(pdf);
  return *pdf;
}

/// Checks that a text holds all of these, each after the one before.
void check_in_order(const std::string& text, const std::vector<std::string>& parts) {
  std::size_t from = 0;
  for (const std::string& part : parts) {
    INFO(part);
    const auto at = text.find(part, from);
    CHECK(at != std::string::npos);
    from = at == std::string::npos ? from : at + part.size();
  }
}

/// A word's box on its page, in points from the upper left.
struct Word {
  int page = 0;
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
  std::string text;
};

struct Boxes {
  std::vector<Word> words;
  double width = 0;
  double height = 0;
};

/// What `pdftotext -bbox` says.
Boxes boxes_of(const std::string& xml) {
  static const std::regex kPage(R"re(<page width="([\d.]+)" height="([\d.]+)">)re");
  static const std::string kNumber = R"re(="([\d.-]+)")re";
  static const std::regex kWord("<word xMin" + kNumber + " yMin" + kNumber + " xMax" + kNumber +
                                " yMax" + kNumber + ">(.*)</word>");
  Boxes boxes;
  int page = 0;
  std::istringstream lines(xml);
  for (std::string line; std::getline(lines, line);) {
    std::smatch match;
    if (std::regex_search(line, match, kPage)) {
      ++page;
      boxes.width = std::stod(match[1]);
      boxes.height = std::stod(match[2]);
    } else if (std::regex_search(line, match, kWord)) {
      boxes.words.push_back({page,
                             std::stod(match[1]),
                             std::stod(match[2]),
                             std::stod(match[3]),
                             std::stod(match[4]),
                             match[5]});
    }
  }
  return boxes;
}

/// Whether two words cover each other by more than the leading of a line.
bool overlap(const Word& a, const Word& b) {
  const double wide = std::min(a.right, b.right) - std::max(a.left, b.left);
  const double high = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
  const double letter = std::min(a.bottom - a.top, b.bottom - b.top);
  return a.page == b.page && wide > 0.5 && high > 0.35 * letter;
}

void check_nothing_clipped_or_overlapping(const Sheet& sheet, PaperSize paper) {
  const auto outcome = print_tools::checked("pdftotext", "-bbox", pdf_of(sheet, paper), "-");
  if (!outcome) {
    return;
  }
  const Boxes boxes = boxes_of(outcome->output);
  REQUIRE(boxes.words.size() > 3);
  constexpr double kEdge = 28.0;  // 10 mm, which common printers can print up to (from memory)
  int overlapping = 0;
  for (std::size_t i = 0; i < boxes.words.size(); ++i) {
    const Word& word = boxes.words[i];
    INFO(word.text << " on page " << word.page);
    CHECK(word.left > kEdge);
    CHECK(word.top > kEdge);
    CHECK(word.right < boxes.width - kEdge);
    CHECK(word.bottom < boxes.height - kEdge);
    for (std::size_t j = i + 1; j < boxes.words.size() && boxes.words[j].page == word.page; ++j) {
      if (overlap(word, boxes.words[j])) {
        ++overlapping;
        UNSCOPED_INFO("'" << word.text << "' and '" << boxes.words[j].text << "' overlap on page "
                          << word.page);
      }
    }
  }
  CHECK(overlapping == 0);
}

}  // namespace

TEST_CASE("A sheet of every block is a PDF without errors", "[print]") {
  for (const Sheet& sheet : {sample_sheets::of_every_block(), sample_sheets::of_long_words()}) {
    if (const auto outcome = print_tools::checked("qpdf", "--check", pdf_of(sheet))) {
      INFO(outcome->output);
      CHECK(outcome->status == 0);
    }
  }
}

TEST_CASE("The fonts of a PDF are in the file", "[print]") {
  const std::string pdf = pdf_of(sample_sheets::of_every_block());
  const auto outcome = print_tools::checked("pdffonts", "", pdf);
  if (!outcome) {
    return;
  }
  std::istringstream lines(outcome->output);
  std::string line;
  std::getline(lines, line);  // name, type, encoding, emb, sub, uni
  const auto embedded = line.find(" emb ");
  REQUIRE(embedded != std::string::npos);
  std::getline(lines, line);
  int fonts = 0;
  for (; std::getline(lines, line); ++fonts) {
    INFO(line);
    CHECK(line.substr(embedded + 1, 3) == "yes");
  }
  CHECK(fonts >= 2);  // plain and bold
}

TEST_CASE("A PDF says what it is and when it was made", "[print]") {
  const Sheet sheet = sample_sheets::of_every_block();
  const auto outcome = print_tools::checked("pdfinfo", "-isodates", pdf_of(sheet));
  if (!outcome) {
    return;
  }
  static const std::regex kTitle(R"(Title: +Hall table\n)");
  static const std::regex kSubject(R"(Subject: +A sheet for tests\n)");
  static const std::regex kAuthor(R"(Author: +coatwright\n)");
  static const std::regex kMade(R"(CreationDate: +2027-03-05T16:00:00(Z|\+00)\n)");
  static const std::regex kChanged(R"(ModDate: +2027-03-05T16:00:00(Z|\+00)\n)");
  INFO(outcome->output);
  for (const auto& line : {kTitle, kSubject, kAuthor, kMade, kChanged}) {
    CHECK(std::regex_search(outcome->output, line));
  }
}

TEST_CASE("A PDF has the size of its paper", "[print]") {
  // ISO 216: A4 is 210 x 297 mm, 595.28 x 841.89 points; Letter is 8.5 x 11 inches.
  Sheet sheet = sample_sheets::of_every_block();
  const auto size = [&](PaperSize paper) {
    const auto outcome = print_tools::checked("pdfinfo", "", pdf_of(sheet, paper));
    return outcome ? std::optional(outcome->output) : std::nullopt;
  };
  const auto upright = size(PaperSize::kA4);
  if (!upright) {
    return;
  }
  CHECK(std::regex_search(*upright, std::regex(R"(Page size: +595\.2\d* x 841\.8\d* pts \(A4\))")));
  sheet.landscape = true;
  CHECK(std::regex_search(size(PaperSize::kA4).value(),
                          std::regex(R"(Page size: +841\.8\d* x 595\.2\d* pts \(A4\))")));
  CHECK(std::regex_search(size(PaperSize::kLetter).value(),
                          std::regex(R"(Page size: +792 x 612 pts \(letter\))")));
}

TEST_CASE("All texts of a sheet can be selected, in their order", "[print]") {
  const auto outcome =
      print_tools::checked("pdftotext", "-raw", pdf_of(sample_sheets::of_every_block()), "-");
  if (!outcome) {
    return;
  }
  INFO(outcome->output);
  check_in_order(outcome->output,
                 {"Hall table",
                  "Ines & Tobias, \"Larch and Lathe\" <bench 2>",
                  "RAGS BURN",
                  "Lay them flat outdoors.",
                  "Before the first coat",
                  "Read the label.",
                  "gloves on",
                  "exhaust running",
                  "a plain item",
                  "Hour by hour",
                  "Fri 5 March",
                  "Sat 6 March",
                  "Part 1",
                  "Part 3",
                  "coat goes on",
                  "nobody there",
                  "Steps",
                  "When",
                  "16:00",
                  "Sand",
                  "Hall table",
                  "On the last page: 20 °C, 3 × 5 mm."});
  CHECK(outcome->output.find("page 1 of 2") != std::string::npos);
  CHECK(outcome->output.find("page 2 of 2") != std::string::npos);
}

TEST_CASE("The same sheet gives the same bytes", "[print]") {
  for (const Sheet& sheet : {sample_sheets::of_every_block(), sample_sheets::of_many_rows(90)}) {
    CHECK(pdf_of(sheet) == pdf_of(sheet));
  }
}

TEST_CASE("Every row is printed once, and the heads on each page", "[print]") {
  constexpr int kRows = 150;
  const auto outcome =
      print_tools::checked("pdftotext", "-raw", pdf_of(sample_sheets::of_many_rows(kRows)), "-");
  if (!outcome) {
    return;
  }
  const std::string& text = outcome->output;
  for (int i = 0; i < kRows; ++i) {
    const std::regex row("row-" + std::to_string(i) + R"(\b)");
    INFO(i);
    CHECK(std::distance(std::sregex_iterator(text.begin(), text.end(), row), {}) == 1);
  }
  const std::regex head("Number");
  const std::regex title("Hall table");
  const auto pages = std::count(text.begin(), text.end(), '\f');
  CHECK(pages > 3);
  CHECK(std::distance(std::sregex_iterator(text.begin(), text.end(), head), {}) == pages);
  CHECK(std::distance(std::sregex_iterator(text.begin(), text.end(), title), {}) == pages);
  CHECK(text.find("page " + std::to_string(pages) + " of " + std::to_string(pages)) !=
        std::string::npos);
}

TEST_CASE("Words that lie over each other are noticed", "[print]") {
  const Word word{1, 10, 10, 40, 20, "oil"};
  CHECK(overlap(word, {1, 30, 12, 60, 22, "wax"}));
  CHECK_FALSE(overlap(word, {1, 41, 10, 60, 20, "beside"}));
  CHECK_FALSE(overlap(word, {1, 10, 19, 40, 29, "beneath"}));
  CHECK_FALSE(overlap(word, {2, 30, 12, 60, 22, "on another page"}));
}

TEST_CASE("Nothing is clipped, and no words lie over each other", "[print]") {
  for (const PaperSize paper : {PaperSize::kA4, PaperSize::kLetter}) {
    check_nothing_clipped_or_overlapping(sample_sheets::of_every_block(), paper);
    check_nothing_clipped_or_overlapping(sample_sheets::of_many_rows(60), paper);
    check_nothing_clipped_or_overlapping(sample_sheets::of_long_words(), paper);
  }
}

TEST_CASE("Words longer than a line are printed whole", "[print]") {
  const auto outcome =
      print_tools::checked("pdftotext", "-raw", pdf_of(sample_sheets::of_long_words()), "-");
  if (!outcome) {
    return;
  }
  const std::string& text = outcome->output;
  CHECK(std::count(text.begin(), text.end(), 'x') == 300);
  CHECK(std::count(text.begin(), text.end(), 'Q') == 40);
  CHECK(text.find("w899") != std::string::npos);
}

TEST_CASE("An empty sheet is one page with its title", "[print]") {
  const auto outcome =
      print_tools::checked("pdftotext", "-raw", pdf_of(sample_sheets::empty()), "-");
  if (outcome) {
    CHECK(outcome->output == "Hall table\npage 1 of 1\n\f");
  }
}

TEST_CASE("Bytes that are no text do not disturb a PDF", "[print]") {
  Sheet sheet = sample_sheets::empty();
  sheet.title = "Oak \xFF\xC3 table";
  sheet.blocks = {SheetText{"tail \xE2\x82"}, SheetTable{{}, {}, {}}, SheetList{{}}};
  if (const auto outcome = print_tools::checked("qpdf", "--check", pdf_of(sheet))) {
    CHECK(outcome->status == 0);
  }
}

TEST_CASE("A title that leaves no room on the page is an error", "[print]") {
  Sheet sheet = sample_sheets::empty();
  for (int i = 0; i < 2000; ++i) {
    sheet.title += " word";
  }
  const auto pdf = sheet_as_pdf(sheet, PaperSize::kA4);
  REQUIRE(!pdf);
  CHECK(pdf.error().code == ErrorCode::kOutOfRange);
}
