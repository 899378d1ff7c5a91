#include "report/wrap.h"

#include <algorithm>
#include <vector>

namespace coatwright {
namespace {

bool is_blank(char c) {
  return c == ' ' || c == '\n' || c == '\t' || c == '\r';
}

bool is_control(char c) {
  constexpr unsigned char kFirstPrinting = 0x20;
  constexpr unsigned char kDelete = 0x7f;
  const auto code = static_cast<unsigned char>(c);
  return code < kFirstPrinting || code == kDelete;
}

bool continues_code_point(char c) {
  return (static_cast<unsigned char>(c) & 0xc0U) == 0x80U;
}

// Bytes of the text's first `columns` code points.
std::size_t bytes_of(std::string_view text, std::size_t columns) {
  std::size_t at = 0;
  for (; at < text.size(); ++at) {
    if (!continues_code_point(text[at])) {
      if (columns == 0) {
        break;
      }
      --columns;
    }
  }
  return at;
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (!is_blank(c)) {
      word += is_control(c) ? '?' : c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) {
    words.push_back(std::move(word));
  }
  return words;
}

std::string without_blanks_at_end(std::string text) {
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

// The lines as they grow, word by word.
class Lines {
 public:
  Lines(std::string_view first, std::string_view rest, std::size_t width)
      : rest_(rest), width_(width), line_(first), used_(columns_of(first)) {}

  void add(std::string_view word) {
    const std::size_t blank = line_has_word_ ? 1 : 0;
    if (line_has_word_ && used_ + blank + columns_of(word) > width_) {
      end_line();
    } else if (blank > 0) {
      put(" ");
    }
    while (used_ + columns_of(word) > width_) {
      const std::size_t cut = bytes_of(word, std::max<std::size_t>(width_ - used_, 1));
      put(word.substr(0, cut));
      word.remove_prefix(cut);
      end_line();
    }
    put(word);
    line_has_word_ = true;
  }

  [[nodiscard]] std::string text() && {
    return text_ + without_blanks_at_end(std::move(line_)) + "\n";
  }

 private:
  void put(std::string_view piece) {
    line_ += piece;
    used_ += columns_of(piece);
  }
  void end_line() {
    text_ += line_ + "\n";
    line_ = rest_;
    used_ = columns_of(rest_);
    line_has_word_ = false;
  }

  std::string rest_;
  std::size_t width_;
  std::string text_;
  std::string line_;
  std::size_t used_;
  bool line_has_word_ = false;
};

}  // namespace

std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues_code_point(c); }));
}

std::string padded(std::string_view text, std::size_t columns) {
  const std::size_t used = columns_of(text);
  return std::string(text) + std::string(columns > used ? columns - used : 0, ' ');
}

std::string wrap(std::string_view text,
                 std::string_view first,
                 std::string_view rest,
                 std::size_t width) {
  Lines lines(first, rest, width);
  for (const std::string& word : words_of(text)) {
    lines.add(word);
  }
  return std::move(lines).text();
}

std::string wrap(std::string_view text, std::size_t first, std::size_t rest) {
  return wrap(text, std::string(first, ' '), std::string(rest, ' '));
}

std::string as_sentence(std::string_view text) {
  const bool is_ended = text.ends_with('.') || text.ends_with('!') || text.ends_with('?');
  return std::string(text) + (text.empty() || is_ended ? "" : ".");
}

std::string underlined(std::string_view text, char mark) {
  const std::string lines = wrap(text, 0, 0);
  std::size_t longest = 0;
  for (std::size_t at = 0; at < lines.size(); at = lines.find('\n', at) + 1) {
    const std::string_view rest = std::string_view(lines).substr(at);
    longest = std::max(longest, columns_of(rest.substr(0, rest.find('\n'))));
  }
  return lines + std::string(longest, mark) + "\n";
}

std::string shortened(std::string_view text, std::size_t columns) {
  std::string line;
  for (const char c : text) {
    const bool is_control = static_cast<unsigned char>(c) < ' ';
    const bool begins_character = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (begins_character && columns_of(line) == columns) {
      break;
    }
    line += is_control ? ' ' : c;
  }
  return line;
}

}  // namespace coatwright
