#include "print/sheet_pdf.h"

#include <algorithm>
#include <optional>

#include <cairo/cairo-pdf.h>
#include <date/date.h>
#include <fmt/format.h>

#include "print/chart_strips.h"
#include "print/fills.h"
#include "print/table_strips.h"
#include "print/text_strips.h"

namespace coatwright {
namespace {

constexpr double kMargin = 42.5;  // 15 mm
constexpr double kTitlePoints = 20.0;
constexpr double kSubtitlePoints = 10.0;
constexpr double kFootPoints = 8.0;
constexpr double kPageNumberRoom = 80.0;
constexpr double kUnderTitle = 10.0;
constexpr double kOverFoot = 8.0;

struct PaperLengths {
  double width;
  double height;
};

/// In points. Source: ISO 216 for A4, 210 x 297 mm; Letter is 8.5 x 11 inches.
PaperLengths lengths_of(PaperSize paper, bool landscape) {
  constexpr double kPointsPerMm = 72.0 / 25.4;
  const PaperLengths upright = paper == PaperSize::kA4
                                   ? PaperLengths{210.0 * kPointsPerMm, 297.0 * kPointsPerMm}
                                   : PaperLengths{612.0, 792.0};
  return landscape ? PaperLengths{upright.height, upright.width} : upright;
}

cairo_status_t append(void* text, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

/// The file as it is written, and the surface to draw on.
class PdfFile {
 public:
  PdfFile(const Sheet& sheet, const PaperLengths& paper)
      : surface_(cairo_pdf_surface_create_for_stream(append, &bytes_, paper.width, paper.height)),
        drawing_(cairo_create(surface_)) {
    set(CAIRO_PDF_METADATA_TITLE, sheet.title);
    set(CAIRO_PDF_METADATA_SUBJECT, sheet.subject);
    set(CAIRO_PDF_METADATA_AUTHOR, "coatwright");
    set(CAIRO_PDF_METADATA_CREATOR, "coatwright");
    const std::string made_at = date::format("%FT%TZ", sheet.made_at);
    set(CAIRO_PDF_METADATA_CREATE_DATE, made_at);
    set(CAIRO_PDF_METADATA_MOD_DATE, made_at);
  }
  PdfFile(const PdfFile&) = delete;
  PdfFile& operator=(const PdfFile&) = delete;
  ~PdfFile() {
    cairo_destroy(drawing_);
    cairo_surface_destroy(surface_);
  }

  [[nodiscard]] cairo_t* drawing() const { return drawing_; }

  /// Ends the file. Errors: kFault.
  [[nodiscard]] Result<std::string> finish() {
    cairo_surface_finish(surface_);
    for (const cairo_status_t status : {cairo_status(drawing_), cairo_surface_status(surface_)}) {
      if (status != CAIRO_STATUS_SUCCESS) {
        return fail(ErrorCode::kFault,
                    fmt::format("the PDF cannot be drawn: {}", cairo_status_to_string(status)));
      }
    }
    return std::move(bytes_);
  }

 private:
  void set(cairo_pdf_metadata_t what, const std::string& text) {
    char* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
    cairo_pdf_surface_set_metadata(surface_, what, valid);
    g_free(valid);
  }

  std::string bytes_;
  cairo_surface_t* surface_;
  cairo_t* drawing_;
};

/// What stands on every page around the blocks.
struct PageFrame {
  PaperLengths paper;
  Lettering title;
  std::optional<Lettering> subtitle;
  std::optional<Lettering> foot;

  [[nodiscard]] double width() const { return paper.width - 2 * kMargin; }
  [[nodiscard]] double title_height() const {
    return title.height() + (subtitle ? 2.0 + subtitle->height() : 0.0) + 5.0;
  }
  [[nodiscard]] double foot_height() const {
    constexpr double kPageNumberHeight = 12.0;
    return 3.0 + std::max(kPageNumberHeight, foot ? foot->height() : 0.0);
  }
  [[nodiscard]] double body_top() const { return kMargin + title_height() + kUnderTitle; }
  [[nodiscard]] double body_height() const {
    return paper.height - kMargin - foot_height() - kOverFoot - body_top();
  }
};

PageFrame frame_of(const Sheet& sheet, const PaperLengths& paper, cairo_t* drawing) {
  const double width = paper.width - 2 * kMargin;
  PageFrame frame{paper,
                  Lettering(drawing, sheet.title, width, {kTitlePoints, true}),
                  std::nullopt,
                  std::nullopt};
  if (!sheet.subtitle.empty()) {
    frame.subtitle.emplace(drawing, sheet.subtitle, width, Style{kSubtitlePoints});
  }
  if (!sheet.foot.empty()) {
    frame.foot.emplace(drawing, sheet.foot, width - kPageNumberRoom, Style{kFootPoints});
  }
  return frame;
}

void draw_frame(cairo_t* drawing, const PageFrame& frame, std::size_t page, std::size_t pages) {
  frame.title.draw(drawing, kMargin, kMargin);
  if (frame.subtitle) {
    frame.subtitle->draw(drawing, kMargin, kMargin + frame.title.height() + 2.0);
  }
  const double right = frame.paper.width - kMargin;
  const double rule = kMargin + frame.title_height();
  draw_line(drawing, kMargin, rule, right, rule, 1.2);
  const double foot = frame.paper.height - kMargin - frame.foot_height();
  draw_line(drawing, kMargin, foot, right, foot, 0.6);
  if (frame.foot) {
    frame.foot->draw(drawing, kMargin, foot + 3.0);
  }
  const Lettering number(
      drawing, fmt::format("page {} of {}", page, pages), -1, Style{kFootPoints});
  number.draw(drawing, right - number.width(), foot + 3.0);
}

std::vector<Strip> strips_of_sheet(const Sheet& sheet, const Column& column) {
  std::vector<Strip> strips;
  bool new_page = false;
  bool after_heading = false;  // a text right beneath it introduces what follows
  for (const SheetBlock& block : sheet.blocks) {
    if (std::holds_alternative<SheetPageBreak>(block)) {
      new_page = true;
      continue;
    }
    std::vector<Strip> more = std::visit(
        [&](const auto& one) -> std::vector<Strip> {
          if constexpr (std::is_same_v<std::decay_t<decltype(one)>, SheetPageBreak>) {
            return {};
          } else {
            return strips_of(one, column);
          }
        },
        block);
    const bool introduces = after_heading && std::holds_alternative<SheetText>(block);
    after_heading = std::holds_alternative<SheetHeading>(block);
    if (!more.empty()) {
      more.back().with_next = more.back().with_next || introduces;
      more.front().new_page = new_page;
      new_page = false;
    }
    std::move(more.begin(), more.end(), std::back_inserter(strips));
  }
  return strips;
}

}  // namespace

Result<std::string> sheet_as_pdf(const Sheet& sheet, PaperSize paper) {
  PdfFile file(sheet, lengths_of(paper, sheet.landscape));
  const PageFrame frame = frame_of(sheet, lengths_of(paper, sheet.landscape), file.drawing());
  if (frame.body_height() < frame.paper.height / 3) {
    return fail(ErrorCode::kOutOfRange,
                "the title, subtitle and foot of the sheet are too long to leave room on a page");
  }
  const Column column{file.drawing(), frame.width(), frame.body_height()};
  const std::vector<Strip> strips = strips_of_sheet(sheet, column);
  const std::vector<PrintedPage> pages = pages_of(strips, column.height);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    draw_frame(file.drawing(), frame, i + 1, pages.size());
    for (const PlacedStrip& placed : pages[i]) {
      placed.strip->draw(file.drawing(), kMargin, frame.body_top() + placed.y);
    }
    cairo_show_page(file.drawing());
  }
  return file.finish();
}

}  // namespace coatwright
