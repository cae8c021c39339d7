namespace Coldpeel.Web.Shelf;

/// <summary>A line of the workshop's own record, with the names that people know.</summary>
/// <param name="Process">The process.</param>
/// <param name="Material">The material.</param>
/// <param name="Spoilt">Pieces spoilt.</param>
/// <param name="Of">Pieces pressed.</param>
public sealed record RecordLine(string Process, string Material, int Spoilt, int Of);
