using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A shape at one turn, in micrometres of the search's frame: u along the used length, v across.</summary>
/// <param name="Index">Its place in the <see cref="FormBook"/>.</param>
/// <param name="Slabs">The outline grown by half the gap, cut across v.</param>
/// <param name="ExtentU">Length of the true outline's box, rounded up.</param>
/// <param name="ExtentV">Width of the true outline's box, rounded up.</param>
/// <param name="FirstV">Least v of the grown outline.</param>
/// <param name="LastV">Greatest v of the grown outline.</param>
/// <param name="FirstU">Least u of the grown outline.</param>
/// <param name="LastU">Greatest u of the grown outline.</param>
/// <remarks>The box of the true outline starts at (0, 0), so a place (u, v) is the corner of that box.</remarks>
internal sealed record Form(
    int Index,
    Slabs Slabs,
    long ExtentU,
    long ExtentV,
    double FirstV,
    double LastV,
    double FirstU,
    double LastU
);

/// <summary>A form as one way to lay a piece: the piece's own frame starts at the form's corner less the offset.</summary>
internal readonly record struct Way(Form Form, Turn Turn, long OffsetU, long OffsetV);
