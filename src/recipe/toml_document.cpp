#include "recipe/toml_document.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "recipe/toml_reader.h"

namespace coatwright {
namespace {

constexpr std::size_t kLineWidth = 100;

/// Where a node stands, for the order of the keys.
std::pair<std::uint32_t, std::uint32_t> position_of(const toml::node& node) {
  return {node.source().begin.line, node.source().begin.column};
}

TomlKeys keys_of(const toml::table& table);

/// Dates are in no recipe; they read as the text that they are.
TomlValue value_of(const toml::node& node) {
  if (node.is_table()) {
    return TomlValue(TomlValue::Any(keys_of(*node.as_table())));
  }
  if (node.is_array()) {
    TomlValue::List list;
    for (const toml::node& each : *node.as_array()) {
      list.push_back(value_of(each));
    }
    return TomlValue(TomlValue::Any(std::move(list)));
  }
  if (node.is_boolean()) {
    return TomlValue(TomlValue::Any(node.value_or(false)));
  }
  if (node.is_integer()) {
    return TomlValue(TomlValue::Any(node.value_or(std::int64_t{0})));
  }
  if (node.is_floating_point()) {
    return {node.value_or(0.0)};
  }
  return {node.value_or(std::string())};
}

TomlKeys keys_of(const toml::table& table) {
  std::vector<std::pair<std::string, const toml::node*>> ordered;
  for (const auto& [key, node] : table) {
    ordered.emplace_back(std::string(key.str()), &node);
  }
  std::stable_sort(ordered.begin(), ordered.end(), [](const auto& a, const auto& b) {
    return position_of(*a.second) < position_of(*b.second);
  });
  TomlKeys keys(table.is_inline());
  for (const auto& [key, node] : ordered) {
    keys.set(key, value_of(*node));
  }
  return keys;
}

std::string quoted(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (static_cast<unsigned char>(c) < 0x20U || c == 0x7f) {
      quoted += fmt::format("\\u{:04X}", static_cast<unsigned char>(c));
    } else {
      quoted += c;
    }
  }
  return quoted + "\"";
}

bool is_bare(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
}

std::string key_text(std::string_view key) {
  return is_bare(key) ? std::string(key) : quoted(key);
}

std::string number_text(double number) {
  std::string text = fmt::format("{:.10g}", number);
  return text.find_first_of(".en") == std::string::npos ? text + ".0" : text;
}

std::string value_text(const TomlValue& value);

std::string inline_table(const TomlKeys& keys) {
  std::string text;
  for (const auto& [key, value] : keys.entries()) {
    text += fmt::format("{}{} = {}", text.empty() ? "" : ", ", key_text(key), value_text(value));
  }
  return "{ " + text + " }";
}

/// On one line where it fits, else one value a line.
std::string list_text(const TomlValue::List& list) {
  std::string line;
  std::string lines;
  for (const TomlValue& value : list) {
    const std::string text = value_text(value);
    line += (line.empty() ? "" : ", ") + text;
    lines += "  " + text + ",\n";
  }
  return line.size() <= kLineWidth / 2 ? "[" + line + "]" : "[\n" + lines + "]";
}

std::string value_text(const TomlValue& value) {
  struct Writer {
    std::string operator()(const std::string& text) const { return quoted(text); }
    std::string operator()(std::int64_t number) const { return fmt::format("{}", number); }
    std::string operator()(double number) const { return number_text(number); }
    std::string operator()(bool flag) const { return flag ? "true" : "false"; }
    std::string operator()(const TomlValue::List& list) const { return list_text(list); }
    std::string operator()(const TomlKeys& keys) const { return inline_table(keys); }
  };
  return std::visit(Writer(), value.any());
}

const TomlKeys* block_table(const TomlValue& value) {
  const auto* keys = std::get_if<TomlKeys>(&value.any());
  return keys != nullptr && !keys->is_inline() ? keys : nullptr;
}

/// The tables of a list that is written as [[key]].
const TomlValue::List* block_list(const TomlValue& value) {
  const auto* list = std::get_if<TomlValue::List>(&value.any());
  const bool blocks = list != nullptr && !list->empty() &&
                      std::all_of(list->begin(), list->end(), [](const TomlValue& each) {
                        return block_table(each) != nullptr;
                      });
  return blocks ? list : nullptr;
}

void write_table(const TomlKeys& keys, const std::string& path, std::string& into) {
  for (const auto& [key, value] : keys.entries()) {
    if (block_table(value) == nullptr && block_list(value) == nullptr) {
      into += fmt::format("{} = {}\n", key_text(key), value_text(value));
    }
  }
  for (const auto& [key, value] : keys.entries()) {
    const std::string inner = path.empty() ? key_text(key) : path + "." + key_text(key);
    if (const TomlKeys* table = block_table(value)) {
      into += fmt::format("\n[{}]\n", inner);
      write_table(*table, inner, into);
    } else if (const TomlValue::List* list = block_list(value)) {
      for (const TomlValue& each : *list) {
        into += fmt::format("\n[[{}]]\n", inner);
        write_table(*block_table(each), inner, into);
      }
    }
  }
}

}  // namespace

const TomlValue* TomlKeys::find(std::string_view key) const {
  for (const auto& [known, value] : entries_) {
    if (known == key) {
      return &value;
    }
  }
  return nullptr;
}

TomlValue* TomlKeys::find(std::string_view key) {
  return const_cast<TomlValue*>(std::as_const(*this).find(key));
}

std::vector<TomlKeys*> TomlKeys::tables(std::string_view key) {
  std::vector<TomlKeys*> tables;
  TomlValue* value = find(key);
  auto* list = value == nullptr ? nullptr : std::get_if<TomlValue::List>(&value->any());
  if (list == nullptr) {
    return tables;
  }
  for (TomlValue& each : *list) {
    if (auto* keys = std::get_if<TomlKeys>(&each.any())) {
      tables.push_back(keys);
    }
  }
  return tables;
}

TomlKeys& TomlKeys::table(std::string_view key, bool inline_form) {
  if (find(key) == nullptr) {
    set(key, TomlValue(TomlValue::Any(TomlKeys(inline_form))));
  }
  return std::get<TomlKeys>(find(key)->any());
}

std::string TomlKeys::text(std::string_view key) const {
  const TomlValue* value = find(key);
  const auto* text = value == nullptr ? nullptr : std::get_if<std::string>(&value->any());
  return text == nullptr ? "" : *text;
}

void TomlKeys::set(std::string_view key, TomlValue value, std::string_view after) {
  if (TomlValue* known = find(key)) {
    *known = std::move(value);
    return;
  }
  const auto before = std::find_if(
      entries_.begin(), entries_.end(), [after](const auto& each) { return each.first == after; });
  entries_.emplace(
      before == entries_.end() ? before : before + 1, std::string(key), std::move(value));
}

void TomlKeys::remove(std::string_view key) {
  std::erase_if(entries_, [key](const auto& each) { return each.first == key; });
}

Result<TomlKeys> read_toml_document(std::string_view text, const std::string& label) {
  try {
    return keys_of(toml::parse(text));
  } catch (const toml::parse_error& error) {
    const Place place{label, static_cast<std::int64_t>(error.source().begin.line), ""};
    return tl::unexpected(place.error(fmt::format("not TOML: {}", error.description())));
  }
}

std::string toml_text(const TomlKeys& document) {
  std::string text;
  write_table(document, "", text);
  return text;
}

}  // namespace coatwright
