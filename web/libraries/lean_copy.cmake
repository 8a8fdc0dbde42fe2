# Copies of libraries' sources with some of their text replaced: lean_from(SOURCE), lean_replace(TEXT REPLACEMENT) as often
# as need be, lean_to(COPY). Every text has to be there, so that another release does not go by unnoticed.
macro(lean_from source)
  set(lean_source ${source})
  file(READ ${lean_source} lean_content)
endmacro()

function(lean_replace text replacement)
  string(FIND "${lean_content}" "${text}" place)
  if(place EQUAL -1)
    message(FATAL_ERROR "${lean_source} no longer says \"${text}\", as this build expects")
  endif()
  string(REPLACE "${text}" "${replacement}" changed "${lean_content}")
  set(lean_content "${changed}" PARENT_SCOPE)
endfunction()

# What is the same already is not written, and so not compiled, again.
function(lean_to copy)
  set(there "")
  if(EXISTS ${copy})
    file(READ ${copy} there)
  endif()
  if(NOT there STREQUAL lean_content)
    file(WRITE ${copy} "${lean_content}")
  endif()
endfunction()
