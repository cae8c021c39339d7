using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Coldpeel.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Again : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "MadeIn",
                table: "piece_outcomes",
                type: "character varying(200)",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "AgainOf",
                table: "jobs",
                type: "character varying(200)",
                maxLength: 200,
                nullable: true);

            // An earlier version told it in the reason alone: "made again in AR-1 again 1", and the same taken back.
            migrationBuilder.Sql(
                """UPDATE piece_outcomes SET "MadeIn" = substr("Why", 15) WHERE "Good" = 0 AND "Spoilt" = 0 AND "Why" LIKE 'made again in %'"""
            );
            migrationBuilder.Sql(
                """UPDATE piece_outcomes SET "MadeIn" = substr("Why", 27) WHERE "Good" = 0 AND "Spoilt" = 0 AND "Why" LIKE 'taken back: made again in %'"""
            );
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "MadeIn",
                table: "piece_outcomes");

            migrationBuilder.DropColumn(
                name: "AgainOf",
                table: "jobs");
        }
    }
}
