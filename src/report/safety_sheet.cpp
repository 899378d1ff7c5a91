#include "report/safety_sheet.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/safety_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kLabelWidth = 12;
constexpr std::size_t kTextWidth = kPageWidth - kLabelWidth;

/// What stays together on a page.
struct Block {
  std::string label;
  Lines lines;  ///< Without the label's column.
};

using Blocks = std::vector<Block>;

Lines split(const std::string& text) {
  Lines lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

constexpr std::string_view kUnbroken = kNumbersBlank;

/// A figure stays on one line with what it counts: "20 ft".
std::string bound_figures(std::string_view text) {
  std::string bound;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool after_digit = i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9';
    bound += text[i] == ' ' && after_digit ? kUnbroken : text.substr(i, 1);
  }
  return bound;
}

std::string plain_blanks(std::string text) {
  for (auto at = text.find(kUnbroken); at != std::string::npos; at = text.find(kUnbroken, at)) {
    text.replace(at, kUnbroken.size(), " ");
  }
  return text;
}

/// As wrap(), with figures unbroken.
Lines wrapped(std::string_view text,
              std::string_view first,
              std::string_view rest,
              std::size_t width) {
  return split(plain_blanks(wrap(bound_figures(text), first, rest, width)));
}

Lines head_below_title(const SafetySheet& sheet) {
  Lines head = {std::string(kPageWidth, '=')};
  const std::string label = padded("FOR", kLabelWidth);
  for (std::string& line :
       wrapped(products_text(sheet), label, std::string(kLabelWidth, ' '), kPageWidth)) {
    head.push_back(std::move(line));
  }
  if (sheet.products.size() > 1) {
    head.push_back(std::string(kLabelWidth, ' ') + "[1,2]: of these products only.");
  }
  head.emplace_back();
  return head;
}

Lines foot(const SafetySheet& sheet) {
  Lines lines = {std::string(kPageWidth, '-')};
  for (const SheetSection& section : sheet.sections) {
    if (section.section != SafetySection::kEveryPage) {
      continue;
    }
    for (const SheetStatement& entry : section.statements) {
      for (std::string& line : wrapped(entry.statement->text, "", "", kPageWidth)) {
        lines.push_back(std::move(line));
      }
    }
  }
  return lines;
}

/// Deals the blocks out to pages. A block begins a new page where the one before has no room.
/// @param room  lines of a page for blocks.
/// @param gap   blank lines between two sections on one page.
std::vector<Blocks> dealt_out(const Blocks& blocks, std::size_t room, std::size_t gap) {
  std::vector<Blocks> pages(1);
  std::size_t used = 0;
  for (const Block& block : blocks) {
    const bool first = pages.back().empty();
    const bool parted = !first && pages.back().back().label != block.label;
    std::size_t needed = block.lines.size() + (parted ? gap : 0);
    if (!first && used + needed > room) {
      pages.emplace_back();
      used = 0;
      needed = block.lines.size();
    }
    used += needed;
    pages.back().push_back(block);
  }
  return pages;
}

/// A page's blocks with their labels; a section that goes on from the page before is named again.
Lines body_of(const Blocks& blocks, std::size_t gap) {
  Lines lines;
  const Block* before = nullptr;
  for (const Block& block : blocks) {
    const bool begins = before == nullptr || before->label != block.label;
    lines.resize(lines.size() + (begins && before != nullptr ? gap : 0));
    for (std::size_t i = 0; i < block.lines.size(); ++i) {
      lines.push_back(padded(begins && i == 0 ? block.label : "", kLabelWidth) + block.lines[i]);
    }
    before = &block;
  }
  return lines;
}

void add_lines(std::string& text, const Lines& lines) {
  for (const std::string& line : lines) {
    text += line + "\n";
  }
}

std::string pages_of(const Blocks& blocks, std::string_view title, const SafetySheet& sheet) {
  const Lines head = head_below_title(sheet);
  const Lines last = foot(sheet);
  const std::size_t room = kPageLines - 1 - head.size() - last.size();
  // Blank lines between the sections, unless they alone cost a page.
  const std::size_t gap = dealt_out(blocks, room, 1).size() > dealt_out(blocks, room, 0).size()
                              ? std::size_t{0}
                              : std::size_t{1};
  const std::vector<Blocks> pages = dealt_out(blocks, room, gap);
  std::string text;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string number = fmt::format("page {} of {}", i + 1, pages.size());
    text += (i == 0 ? "" : "\f") + padded(title, kPageWidth - number.size()) + number + "\n";
    add_lines(text, head);
    add_lines(text, body_of(pages[i], gap));
    add_lines(text, last);
  }
  return text;
}

Lines bulleted(const std::string& text) {
  return wrapped(text, "- ", "  ", kTextWidth);
}

void add_blocks(const std::string& label, const std::vector<std::string>& texts, Blocks& blocks) {
  for (const std::string& text : texts) {
    blocks.push_back({label, bulleted(text)});
  }
}

/// What matters most, and what is done that day.
Blocks first_blocks(const SafetySheet& sheet, const SafetyFacts& facts) {
  Blocks blocks;
  for (const SafetyHeadline* headline : sheet.headlines) {
    blocks.push_back({"FIRST", bulleted(headline->title + ". " + headline->text)});
  }
  if (!facts.emergency.empty()) {
    blocks.push_back({"CALL", bulleted(facts.emergency)});
  }
  add_blocks("FIGURES", facts.figures, blocks);
  add_blocks("STORED", facts.stored, blocks);
  add_blocks("LABELS", facts.labels, blocks);
  return blocks;
}

std::string title_of(const SafetyFacts& facts) {
  constexpr std::size_t kRoom = 44;  // beside the page's number
  const std::string subject = subject_of(facts);
  return subject.empty() || subject.size() > kRoom ? "SAFETY SHEET" : "SAFETY SHEET  " + subject;
}

std::string classes_text(const SafetyStatement& statement) {
  std::string text;
  for (const HazardClass hazard : statement.applies_to) {
    text += (text.empty() ? "" : ", ") + std::string(name_of(hazard));
  }
  return text;
}

nlohmann::ordered_json as_json(const SheetStatement& entry, const SafetySheet& sheet) {
  nlohmann::ordered_json classes = nlohmann::ordered_json::array();
  for (const HazardClass hazard : entry.statement->applies_to) {
    classes.push_back(name_of(hazard));
  }
  nlohmann::ordered_json products = nlohmann::ordered_json::array();
  for (const std::size_t position : entry.products) {
    products.push_back(sheet.products[position]->name);
  }
  return {{"text", entry.statement->text},
          {"applies_to", classes},
          {"products", products},
          {"source", entry.statement->source},
          {"how", entry.statement->how}};
}

nlohmann::ordered_json as_json(const Product& product) {
  nlohmann::ordered_json hazards = nlohmann::ordered_json::array();
  for (const HazardClass hazard : hazards_of(product)) {
    hazards.push_back(name_of(hazard));
  }
  return {{"name", product.name}, {"title", product.title}, {"hazards", hazards}};
}

}  // namespace

std::string show_safety_sheet(const SafetySheet& sheet, const SafetyFacts& facts) {
  Blocks blocks = first_blocks(sheet, facts);
  for (const SheetSection& section : sheet.sections) {
    if (section.section == SafetySection::kEveryPage) {
      continue;  // the foot
    }
    for (const SheetStatement& entry : section.statements) {
      blocks.push_back({std::string(label_of(section.section)),
                        bulleted(entry.statement->text + numbers_text(entry, sheet))});
    }
  }
  return pages_of(blocks, title_of(facts), sheet);
}

std::string explain_safety_sheet(const SafetySheet& sheet) {
  Blocks blocks;
  for (const SheetSection& section : sheet.sections) {
    for (const SheetStatement& entry : section.statements) {
      Block block{std::string(label_of(section.section)),
                  bulleted(entry.statement->text + numbers_text(entry, sheet))};
      const std::string basis = fmt::format("[{}], {}; said of: {}",
                                            entry.statement->source,
                                            entry.statement->how,
                                            classes_text(*entry.statement));
      for (std::string& line : split(wrap(basis, "    ", "    ", kTextWidth))) {
        block.lines.push_back(std::move(line));
      }
      blocks.push_back(std::move(block));
    }
  }
  return pages_of(blocks, "SAFETY SHEET: WHERE EACH STATEMENT IS FROM", sheet);
}

std::string safety_sheet_as_json(const SafetySheet& sheet, const SafetyFacts& facts) {
  nlohmann::ordered_json headlines = nlohmann::ordered_json::array();
  for (const SafetyHeadline* headline : sheet.headlines) {
    headlines.push_back({{"title", headline->title},
                         {"text", headline->text},
                         {"source", headline->source},
                         {"how", headline->how}});
  }
  nlohmann::ordered_json whole = {{"products", nlohmann::ordered_json::array()},
                                  {"day", facts.day},
                                  {"pieces", facts.pieces},
                                  {"headlines", headlines},
                                  {"emergency", facts.emergency},
                                  {"figures", facts.figures},
                                  {"stored", facts.stored},
                                  {"labels", facts.labels},
                                  {"sections", nlohmann::ordered_json::array()}};
  for (const Product* product : sheet.products) {
    whole["products"].push_back(as_json(*product));
  }
  for (const SheetSection& section : sheet.sections) {
    nlohmann::ordered_json statements = nlohmann::ordered_json::array();
    for (const SheetStatement& entry : section.statements) {
      statements.push_back(as_json(entry, sheet));
    }
    whole["sections"].push_back(
        {{"section", name_of(section.section)}, {"statements", statements}});
  }
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
