using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Coldpeel.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Work : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterColumn<string>(
                name: "Key",
                table: "stock_moves",
                type: "character varying(320)",
                maxLength: 320,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(200)",
                oldMaxLength: 200);

            migrationBuilder.AddColumn<string>(
                name: "Cause",
                table: "stock_moves",
                type: "character varying(300)",
                maxLength: 300,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Job",
                table: "stock_moves",
                type: "character varying(200)",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "Role",
                table: "stock",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                defaultValue: "");

            migrationBuilder.CreateTable(
                name: "piece_outcomes",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "character varying(320)", maxLength: 320, nullable: false),
                    Cause = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    Job = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Process = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Material = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Piece = table.Column<string>(type: "character varying(300)", maxLength: 300, nullable: false),
                    Good = table.Column<int>(type: "integer", nullable: false),
                    Spoilt = table.Column<int>(type: "integer", nullable: false),
                    Missing = table.Column<int>(type: "integer", nullable: false),
                    AtMs = table.Column<long>(type: "bigint", nullable: false),
                    Who = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Why = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_piece_outcomes", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Cause",
                table: "stock_moves",
                column: "Cause");

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Job_Id",
                table: "stock_moves",
                columns: new[] { "Job", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_stock_Count",
                table: "stock",
                column: "Count");

            migrationBuilder.CreateIndex(
                name: "IX_stock_Role",
                table: "stock",
                column: "Role");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Cause",
                table: "piece_outcomes",
                column: "Cause");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Job",
                table: "piece_outcomes",
                column: "Job");

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Key",
                table: "piece_outcomes",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_piece_outcomes_Process_Material_Good_Spoilt",
                table: "piece_outcomes",
                columns: new[] { "Process", "Material", "Good", "Spoilt" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "piece_outcomes");

            migrationBuilder.DropIndex(
                name: "IX_stock_moves_Cause",
                table: "stock_moves");

            migrationBuilder.DropIndex(
                name: "IX_stock_moves_Job_Id",
                table: "stock_moves");

            migrationBuilder.DropIndex(
                name: "IX_stock_Count",
                table: "stock");

            migrationBuilder.DropIndex(
                name: "IX_stock_Role",
                table: "stock");

            migrationBuilder.DropColumn(
                name: "Cause",
                table: "stock_moves");

            migrationBuilder.DropColumn(
                name: "Job",
                table: "stock_moves");

            migrationBuilder.DropColumn(
                name: "Role",
                table: "stock");

            migrationBuilder.AlterColumn<string>(
                name: "Key",
                table: "stock_moves",
                type: "character varying(200)",
                maxLength: 200,
                nullable: false,
                oldClrType: typeof(string),
                oldType: "character varying(320)",
                oldMaxLength: 320);
        }
    }
}
