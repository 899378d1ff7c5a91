#pragma once

#include <string>
#include <string_view>

namespace coatwright {

/// @return a short name for a text's content: 64-bit FNV-1a as 16 hexadecimal digits. It tells
/// revisions of one file apart; it is no protection against forgery. Source: [fnv_draft] section 2.
[[nodiscard]] std::string content_hash(std::string_view text);

}  // namespace coatwright
