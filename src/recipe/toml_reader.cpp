#include "recipe/toml_reader.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "recipe/nearest_names.h"

namespace coatwright {
namespace {

constexpr std::int64_t kFormat = 1;
constexpr std::size_t kLongestShown = 60;

std::string shown_text(std::string text) {
  if (text.size() > kLongestShown) {
    std::size_t end = kLongestShown;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
      --end;  // not in the middle of a UTF-8 character
    }
    text = text.substr(0, end) + "...";
  }
  return fmt::format("\"{}\"", text);
}

/// A value as an error shows it.
std::string shown(const toml::node& node) {
  if (const auto text = node.value_exact<std::string>()) {
    return shown_text(*text);
  }
  if (const auto whole = node.value_exact<std::int64_t>()) {
    return fmt::format("{}", *whole);
  }
  if (const auto number = node.value_exact<double>()) {
    return fmt::format("{}", *number);
  }
  if (const auto flag = node.value_exact<bool>()) {
    return *flag ? "true" : "false";
  }
  if (node.is_array()) {
    return node.as_array()->empty() ? "an empty list" : "a list";
  }
  return node.is_table() ? "a table" : "a date or time";
}

std::int64_t line_of(const toml::node& node) {
  // Tables that exist only through dotted keys carry no line of their own.
  return std::max<std::int64_t>(1, static_cast<std::int64_t>(node.source().begin.line));
}

std::string found(const toml::node& node, std::string_view allowed) {
  return fmt::format("found {}; allowed: {}", shown(node), allowed);
}

std::optional<double> number_in(const toml::node& node) {
  if (const auto whole = node.value_exact<std::int64_t>()) {
    return static_cast<double>(*whole);
  }
  return node.value_exact<double>();
}

std::string number_text(const NumberRange& range) {
  return fmt::format("a number, {}", range.text());
}

std::string one_of(const std::vector<std::string_view>& allowed) {
  return fmt::format("{}", fmt::join(allowed, ", "));
}

}  // namespace

bool NumberRange::holds(double value) const {
  // Written so that "not a number" is never held.
  return value <= high && (above_low ? value > low : value >= low);
}

std::string NumberRange::text() const {
  return above_low ? fmt::format("above {}, up to {}", low, high)
                   : fmt::format("{} to {}", low, high);
}

Error Place::error(std::string message) const {
  Error error{ErrorCode::kInputFile, std::move(message), {}};
  if (!path.empty()) {
    error.context.push_back(path);
  }
  error.context.push_back(fmt::format("line {}", line));
  error.context.push_back(label);
  return error;
}

Result<TomlFile> TomlFile::parse(std::string_view text, std::string label) {
  TomlFile file;
  file.state_ = std::make_unique<State>();
  file.state_->label = label;
  try {
    file.state_->root = toml::parse(text);
  } catch (const toml::parse_error& error) {
    const Place place{std::move(label), static_cast<std::int64_t>(error.source().begin.line), ""};
    return tl::unexpected(place.error(fmt::format("not TOML: {}", error.description())));
  }
  static_cast<void>(file.root());  // checks the format
  if (file.error()) {
    return tl::unexpected(*file.error());
  }
  return file;
}

TomlTable TomlFile::root() const {
  TomlTable root(state_.get(), &state_->root, "");
  const toml::node* format = root.require("format", "1");
  if (format != nullptr && format->value_exact<std::int64_t>() != kFormat) {
    root.wrong("format", "1, the format that this program reads");
  }
  return root;
}

const toml::node* TomlTable::find(std::string_view key) {
  asked_.emplace(key);
  return table_->get(key);
}

const toml::node* TomlTable::require(std::string_view key, std::string_view allowed) {
  const toml::node* node = find(key);
  if (node != nullptr) {
    return node;
  }
  std::string message = fmt::format("the key is missing; allowed: {}", allowed);
  std::vector<std::string> present;
  for (const auto& [known, value] : *table_) {
    if (!asked_.contains(std::string_view(known.str()))) {
      present.emplace_back(known.str());
    }
  }
  const std::vector<std::string> near = nearest_names(key, present);
  if (!near.empty()) {
    message += fmt::format(" (is '{}' meant for it?)", near.front());
  }
  note(place(key), std::move(message));
  return nullptr;
}

std::string TomlTable::checked_text(const toml::node& node, std::string_view key) {
  std::optional<std::string> text = node.value_exact<std::string>();
  if (text && text->find_first_not_of(" \t\r\n") != std::string::npos) {
    return std::move(*text);
  }
  Place where = place(key);
  where.line = line_of(node);
  note(where, found(node, "a text that is not empty"));
  return "";
}

std::string TomlTable::text(std::string_view key) {
  const toml::node* node = require(key, "a text that is not empty");
  return node != nullptr ? checked_text(*node, key) : "";
}

std::string TomlTable::text_or(std::string_view key, std::string fallback) {
  const toml::node* node = find(key);
  return node != nullptr ? checked_text(*node, key) : fallback;
}

std::optional<double> TomlTable::checked_number(std::string_view key,
                                                const toml::node* node,
                                                const NumberRange& range) {
  if (node == nullptr) {
    return std::nullopt;
  }
  const std::optional<double> value = number_in(*node);
  if (value && range.holds(*value)) {
    return value;
  }
  wrong(key, number_text(range));
  return std::nullopt;
}

double TomlTable::number(std::string_view key, const NumberRange& range) {
  return checked_number(key, require(key, number_text(range)), range).value_or(range.high);
}

std::optional<double> TomlTable::optional_number(std::string_view key, const NumberRange& range) {
  return checked_number(key, find(key), range);
}

double TomlTable::number_or(std::string_view key, double fallback, const NumberRange& range) {
  return optional_number(key, range).value_or(fallback);
}

int TomlTable::count_or(std::string_view key, int fallback, const NumberRange& range) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return fallback;
  }
  const std::optional<std::int64_t> value = node->value_exact<std::int64_t>();
  if (value && range.holds(static_cast<double>(*value))) {
    return static_cast<int>(*value);
  }
  wrong(key, fmt::format("a whole number, {}", range.text()));
  return fallback;
}

bool TomlTable::flag(std::string_view key) {
  const toml::node* node = require(key, "true or false");
  if (node == nullptr) {
    return false;
  }
  if (!node->is_boolean()) {
    wrong(key, "true or false");
  }
  return node->value_or(false);
}

const toml::array* TomlTable::checked_list(std::string_view key,
                                           bool required,
                                           std::string_view allowed) {
  const toml::node* node = required ? require(key, allowed) : find(key);
  if (node == nullptr) {
    return nullptr;
  }
  if (!node->is_array() || (required && node->as_array()->empty())) {
    wrong(key, allowed);
    return nullptr;
  }
  return node->as_array();
}

std::vector<std::string> TomlTable::texts(std::string_view key, bool required) {
  std::vector<std::string> texts;
  if (const toml::array* list = checked_list(key, required, "a list of texts")) {
    for (const toml::node& node : *list) {
      texts.push_back(checked_text(node, key));
    }
  }
  return texts;
}

std::string_view TomlTable::checked_name(const toml::node& node,
                                         std::string_view key,
                                         const std::vector<std::string_view>& allowed) {
  const std::optional<std::string> text = node.value_exact<std::string>();
  const auto known = text ? std::find(allowed.begin(), allowed.end(), *text) : allowed.end();
  if (known != allowed.end()) {
    return *known;
  }
  Place where = place(key);
  where.line = line_of(node);
  note(where, found(node, one_of(allowed)));
  return allowed.front();
}

std::string_view TomlTable::name(std::string_view key,
                                 const std::vector<std::string_view>& allowed) {
  const toml::node* node = require(key, one_of(allowed));
  return node != nullptr ? checked_name(*node, key, allowed) : allowed.front();
}

std::vector<std::string_view> TomlTable::names(std::string_view key,
                                               const std::vector<std::string_view>& allowed) {
  std::vector<std::string_view> names;
  const std::string what = fmt::format("a list of: {}", one_of(allowed));
  if (const toml::array* list = checked_list(key, true, what)) {
    for (const toml::node& node : *list) {
      const std::string_view name = checked_name(node, key, allowed);
      if (std::find(names.begin(), names.end(), name) != names.end()) {
        wrong(key, fmt::format("each of its names once, but '{}' is there twice", name));
      }
      names.push_back(name);
    }
  }
  return names;
}

std::optional<TomlTable> TomlTable::checked_table(std::string_view key, const toml::node* node) {
  if (node != nullptr && node->is_table()) {
    return TomlTable(file_, node->as_table(), place(key).path);
  }
  if (node != nullptr) {
    wrong(key, "a table");
  }
  return std::nullopt;
}

TomlTable TomlTable::table(std::string_view key) {
  static const toml::table kNothing;
  const std::optional<TomlTable> inner = checked_table(key, require(key, "a table"));
  return inner ? *inner : TomlTable(file_, &kNothing, place(key).path);
}

std::optional<TomlTable> TomlTable::optional_table(std::string_view key) {
  return checked_table(key, find(key));
}

std::vector<TomlTable> TomlTable::tables(std::string_view key, bool required) {
  std::vector<TomlTable> tables;
  const std::string allowed = fmt::format("tables written as [[{}]]", place(key).path);
  const toml::array* list = checked_list(key, required, allowed);
  if (list == nullptr) {
    return tables;
  }
  for (const toml::node& node : *list) {
    if (!node.is_table()) {
      wrong(key, allowed);
      return tables;
    }
    std::string path = fmt::format("{}[{}]", place(key).path, tables.size() + 1);
    tables.push_back(TomlTable(file_, node.as_table(), std::move(path)));
  }
  return tables;
}

void TomlTable::wrong(std::string_view key, std::string_view allowed) {
  note(place(key), found(*table_->get(key), allowed));
}

void TomlTable::wrong(std::string message) {
  note(place(), std::move(message));
}

void TomlTable::wrong(Error error) {
  if (ok()) {
    file_->error = std::move(error);
  }
}

void TomlTable::finish() {
  const toml::node* first = nullptr;
  std::string_view name;
  for (const auto& [key, value] : *table_) {
    const bool unknown = !asked_.contains(std::string_view(key.str()));
    if (unknown && (first == nullptr || line_of(value) < line_of(*first))) {
      first = &value;
      name = key.str();
    }
  }
  if (first != nullptr) {
    note(place(name),
         fmt::format(
             "unknown key, found {}; allowed here: {}", shown(*first), fmt::join(asked_, ", ")));
  }
}

Place TomlTable::place() const {
  return {file_->label, line_of(*table_), path_};
}

Place TomlTable::place(std::string_view key) const {
  const toml::node* node = table_->get(key);
  return {file_->label,
          node != nullptr ? line_of(*node) : line_of(*table_),
          path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key)};
}

void TomlTable::note(const Place& where, std::string message) {
  wrong(where.error(std::move(message)));
}

}  // namespace coatwright
