#include "report/sheet_html.h"

#include <fmt/format.h>

#include "base/zone.h"
#include "report/html_text.h"
#include "report/sheet_svg.h"

namespace coatwright {
namespace {

constexpr std::string_view kStyle = R"css(
html { background: #fff; color: #000; font-family: "DejaVu Sans", sans-serif; }
body { margin: 0 auto; padding: 1rem; max-width: 62rem; font-size: 1rem; line-height: 1.4;
  overflow-wrap: anywhere; }
h1 { font-size: 1.9rem; line-height: 1.15; margin: 0; }
h2 { font-size: 1.25rem; margin: 1.4rem 0 0.4rem; break-after: avoid; }
p { margin: 0.3rem 0; }
header { border-bottom: 2px solid #000; padding-bottom: 0.4rem; margin-bottom: 0.8rem; }
footer { border-top: 1px solid #000; margin-top: 1.5rem; padding-top: 0.4rem; font-size: 0.85rem; }
.big { font-size: clamp(1.6rem, 7vw, 36pt); line-height: 1.15; }
.large { font-size: clamp(1.2rem, 4vw, 18pt); line-height: 1.25; }
.body { font-size: 1rem; }
.small { font-size: 0.85rem; line-height: 1.3; }
.box { border: 3px solid #000; padding: 0.6rem 0.8rem; margin: 0.8rem 0; break-inside: avoid; }
.box p { margin: 0; }
.box p + p { margin-top: 0.4rem; }
.bold { font-weight: bold; }
ul { margin: 0.3rem 0; padding-left: 1.4em; }
ul.dash { list-style: "\2013  "; }
ul.ticks { list-style: none; padding-left: 0; }
ul.ticks li { padding-left: 1.6em; text-indent: -1.6em; }
li { margin: 0.15rem 0; break-inside: avoid; }
.tick { display: inline-block; width: 1.6em; text-indent: 0; }
.wide { overflow-x: auto; margin: 0.5rem 0; }
table { border-collapse: collapse; width: 100%; min-width: 46rem; table-layout: fixed; }
th { text-align: left; vertical-align: bottom; }
td { vertical-align: top; }
th, td { padding: 0.2rem 0.4rem; }
.ruled th, .ruled td { border: 1px solid #000; }
.roomy td { height: 2rem; }
tr { break-inside: avoid; }
thead { display: table-header-group; }
svg { display: block; width: 100%; min-width: 44rem; break-inside: avoid; }
.new-page { break-before: page; }
@media print {
  body { max-width: none; padding: 0; font-size: 10.5pt; }
  .big { font-size: 36pt; }
  .large { font-size: 18pt; }
  .wide { overflow: visible; }
  table, svg { min-width: 0; }
}
)css";

std::string_view class_of(SheetSize size) {
  switch (size) {
    case SheetSize::kBig:
      return "big";
    case SheetSize::kLarge:
      return "large";
    case SheetSize::kBody:
      return "body";
    case SheetSize::kSmall:
      return "small";
  }
  return "body";
}

constexpr std::string_view kTick =
    "<span class=\"tick\" role=\"img\" aria-label=\"to tick\">\xE2\x98\x90</span>";

/// Writes the blocks one after the other.
class BlockWriter {
 public:
  void operator()(const SheetHeading& heading) {
    put(fmt::format("<h2{}>{}</h2>\n", class_list(""), html_lines(heading.text)));
  }
  void operator()(const SheetText& text) {
    const auto classes =
        std::string(class_of(text.size)) + (text.bold ? std::string(" bold") : std::string());
    put(fmt::format("<p{}>{}</p>\n", class_list(classes), html_lines(text.text)));
  }
  void operator()(const SheetBox& box);
  void operator()(const SheetList& list);
  void operator()(const SheetTable& table);
  void operator()(const SheetChart& chart) {
    ++charts_;
    put(fmt::format("<div{}>\n{}</div>\n", class_list("wide"), chart_as_svg(chart, charts_)));
  }
  void operator()(const SheetPageBreak& /*unused*/) { breaks_ = true; }

  [[nodiscard]] const std::string& html() const { return html_; }

 private:
  void put(const std::string& html) {
    html_ += html;
    breaks_ = false;
  }
  [[nodiscard]] std::string class_list(std::string classes) const {
    classes += breaks_ ? (classes.empty() ? "new-page" : " new-page") : "";
    return classes.empty() ? "" : " class=\"" + classes + "\"";
  }

  std::string html_;
  bool breaks_ = false;  // what comes next begins a page
  int charts_ = 0;
};

void BlockWriter::operator()(const SheetBox& box) {
  std::string html = fmt::format("<div{}>\n", class_list("box"));
  if (!box.title.empty()) {
    html += fmt::format("<p class=\"{} bold\">{}</p>\n", class_of(box.size), html_lines(box.title));
  }
  if (!box.text.empty()) {
    const SheetSize size = box.title.empty() ? box.size : one_smaller(box.size);
    html += fmt::format("<p class=\"{}\">{}</p>\n", class_of(size), html_lines(box.text));
  }
  put(html + "</div>\n");
}

void BlockWriter::operator()(const SheetList& list) {
  if (list.items.empty()) {
    return;  // a list without items is not allowed
  }
  const auto classes = fmt::format("{} {}", list.tick ? "ticks" : "dash", class_of(list.size));
  std::string html = fmt::format("<ul{}>\n", class_list(classes));
  for (const std::string& item : list.items) {
    html += fmt::format("<li>{}{}</li>\n", list.tick ? kTick : "", html_lines(item));
  }
  put(html + "</ul>\n");
}

std::string columns_of(const SheetTable& table) {
  std::string html = table.tick ? "<col style=\"width: 2.2em\"/>" : "";
  for (const double width : table.widths) {
    html += fmt::format("<col style=\"width: {:.2f}%\"/>", width * 100.0);
  }
  return html.empty() ? "" : "<colgroup>" + html + "</colgroup>\n";
}

std::string heads_of(const SheetTable& table) {
  if (table.heads.empty()) {
    return "";
  }
  std::string html = "<thead><tr>";
  html += table.tick ? "<th scope=\"col\" aria-label=\"to tick\"></th>" : "";
  for (const std::string& head : table.heads) {
    html += fmt::format("<th scope=\"col\">{}</th>", html_lines(head));
  }
  return html + "</tr></thead>\n";
}

void BlockWriter::operator()(const SheetTable& table) {
  std::string html = fmt::format("<div{}>\n<table class=\"{}{}{}\">\n",
                                 class_list("wide"),
                                 class_of(table.size),
                                 table.ruled ? " ruled" : "",
                                 table.roomy ? " roomy" : "");
  html += columns_of(table) + heads_of(table) + "<tbody>\n";
  for (const auto& row : table.rows) {
    html += "<tr>";
    html += table.tick ? fmt::format("<td>{}</td>", kTick) : "";
    for (const std::string& cell : row) {
      html += "<td>" + html_lines(cell) + "</td>";
    }
    html += "</tr>\n";
  }
  put(html + "</tbody>\n</table>\n</div>\n");
}

std::string page_rules(const Sheet& sheet, PaperSize paper) {
  return fmt::format(
      "@page {{ size: {} {}; margin: 15mm;\n"
      "  @top-left {{ content: {}; font-size: 8.5pt; }}\n"
      "  @bottom-right {{ content: \"page \" counter(page) \" of \" counter(pages); "
      "font-size: 8.5pt; }} }}\n"
      "@page :first {{ @top-left {{ content: none; }} }}\n",
      paper == PaperSize::kA4 ? "A4" : "letter",
      sheet.landscape ? "landscape" : "portrait",
      css_string(sheet.title));
}

std::string head(const Sheet& sheet, PaperSize paper) {
  return fmt::format(
      "<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
      "<meta name=\"author\" content=\"coatwright\"/>\n"
      "<meta name=\"description\" content=\"{}\"/>\n"
      "<meta name=\"date\" content=\"{}\"/>\n"
      "<title>{}</title>\n<style>{}{}</style>\n</head>\n",
      html_escaped(sheet.subject),
      show_utc(sheet.made_at),
      html_escaped(sheet.title),
      kStyle,
      page_rules(sheet, paper));
}

}  // namespace

std::string sheet_as_html(const Sheet& sheet, PaperSize paper) {
  BlockWriter writer;
  for (const SheetBlock& block : sheet.blocks) {
    std::visit(writer, block);
  }
  std::string html = "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n";
  html += head(sheet, paper) + "<body>\n<header>\n<h1>" + html_lines(sheet.title) + "</h1>\n";
  html += sheet.subtitle.empty() ? "" : "<p>" + html_lines(sheet.subtitle) + "</p>\n";
  html += "</header>\n<main>\n" + writer.html() + "</main>\n";
  html += sheet.foot.empty() ? "" : "<footer><p>" + html_lines(sheet.foot) + "</p></footer>\n";
  return html + "</body>\n</html>\n";
}

}  // namespace coatwright
