#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace coatwright {

/// Columns of every page that is printed as text.
inline constexpr std::size_t kPageWidth = 80;

/// Breaks a text at blanks into lines of at most `width` columns; a word that is longer is cut.
/// A column is one UTF-8 code point. Line breaks and tabs in the text count as blanks, other
/// control characters become '?', so that a name from outside cannot disturb the page.
/// @param first  what the first line begins with.
/// @param rest   what every further line begins with.
/// @param width  columns, more than either beginning has.
/// @return the lines, each ended by a line feed; the first beginning alone where the text is empty.
[[nodiscard]] std::string wrap(std::string_view text,
                               std::string_view first,
                               std::string_view rest,
                               std::size_t width = kPageWidth);

/// As above, with beginnings of so many blanks.
[[nodiscard]] std::string wrap(std::string_view text, std::size_t first, std::size_t rest);

/// A text ended as a sentence, so that another may follow it; an empty one stays empty.
[[nodiscard]] std::string as_sentence(std::string_view text);

/// A heading with a line of `mark` beneath it, as long as its longest line.
[[nodiscard]] std::string underlined(std::string_view text, char mark);

/// Columns of a text: its UTF-8 code points.
[[nodiscard]] std::size_t columns_of(std::string_view text);

/// A text on one line, cut to so many columns.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t columns);

/// Blanks added on the right up to so many columns.
[[nodiscard]] std::string padded(std::string_view text, std::size_t columns);

}  // namespace coatwright
