#pragma once

#include <string>
#include <string_view>

namespace coatwright {

/// Text for an element or an attribute in double quotes; what XML does not allow becomes U+FFFD.
[[nodiscard]] std::string html_escaped(std::string_view text);

/// As html_escaped(), with line ends as <br/>.
[[nodiscard]] std::string html_lines(std::string_view text);

/// Text as a string of CSS, quotes included, which may stand in a <style> element.
[[nodiscard]] std::string css_string(std::string_view text);

}  // namespace coatwright
