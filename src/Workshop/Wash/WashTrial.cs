namespace Coldpeel.Workshop.Wash;

/// <summary>A trial: so many pieces were washed so often, and so many came through.</summary>
/// <param name="Process">The process.</param>
/// <param name="Material">The material.</param>
/// <param name="Washes">Washes given.</param>
/// <param name="Pieces">Pieces washed.</param>
/// <param name="Survived">Pieces still good.</param>
/// <param name="On">When it ended.</param>
public sealed record WashTrial(string Process, string Material, int Washes, int Pieces, int Survived, DateOnly On)
{
    /// <summary>Whose trial it is, or "invented example figures"; said on the care slip.</summary>
    public string Source { get; init; } = "own trial";
}
