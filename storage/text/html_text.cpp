#include "storage/text/html_text.h"

namespace storage {

std::string html_escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (c == '\'')
      out += "&#39;";
    else if ((static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') || c == 0x7F)
      out += "\xEF\xBF\xBD";
    else
      out += c;
  }
  return out;
}

std::string html_name(std::string_view text) {
  return text.empty() ? "" : "<bdi>" + html_escaped(text) + "</bdi>";
}

}  // namespace storage
