/* The drawing's backend asks OpenGL before each frame what state it should put back after it. In a browser such a question
 * waits until the graphics process has drawn all that came before. Nobody else draws into this context, so it is answered
 * here with the state that a context begins with (OpenGL ES 2.0.25, tables 6.6 to 6.14). */
#include <GLES2/gl2.h>

void glGetIntegerv(GLenum name, GLint* values) {
    switch (name) {
    case GL_ACTIVE_TEXTURE:
        *values = GL_TEXTURE0;
        break;
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA:
        *values = GL_FUNC_ADD;
        break;
    case GL_BLEND_SRC_RGB:
    case GL_BLEND_SRC_ALPHA:
        *values = GL_ONE;
        break;
    case GL_VIEWPORT:
    case GL_SCISSOR_BOX:
        values[0] = values[1] = values[2] = values[3] = 0;
        break;
    default: /* nothing bound */
        *values = 0;
    }
}
